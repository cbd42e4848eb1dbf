import { type Database, rawClient } from '#db/client.ts';

export interface StoredRank {
  vehicle: number;
  rank: number;
  grade: string;
  q: number | null;
  chance: number;
  costAvoided: number;
}

/** Writes the place of vehicles in the inspection list. */
export async function storeRanks(db: Database, rows: readonly StoredRank[]): Promise<void> {
  if (rows.length === 0) return;
  await rawClient(db)`
    update assessments a set rank = r.rank, grade = r.grade, q = r.q, chance = r.chance, cost_avoided = r."costAvoided"
    from jsonb_to_recordset(${JSON.stringify(rows)}::text::jsonb)
      as r(vehicle integer, rank integer, grade text, q float8, chance float8, "costAvoided" float8)
    where a.vehicle = r.vehicle`;
}
