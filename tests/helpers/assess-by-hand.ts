import type { RawClient } from '#db/client.ts';
import type { Grade } from '#server/contract/words.ts';
import type { Reason } from '#server/engine/assessment/assessment-model.ts';

export interface HandAssessment {
  grade: Grade;
  /** null where nobody knows */
  kmPerDay?: number | null;
  /** kilometres ahead, and the chance of reaching the limit within them */
  chances?: [km: number, chance: number][];
  codes?: number;
  rank?: number;
  reasons?: Reason[];
  at: Date;
}

/** Stores an assessment as the program would, with its first grade, without readings. */
export async function assessByHand(
  client: RawClient,
  unit: string,
  { grade, kmPerDay = 200, chances = [], codes = 0, rank = 1, reasons, at }: HandAssessment,
): Promise<void> {
  const facts = JSON.stringify({ chances, codes });
  const brief = JSON.stringify({
    reasons: reasons ?? [{ kind: 'risen', fromRpm: 19, toRpm: 76, overKm: 9_430, sinceKm: 110_000 }],
    missing: [],
    spark: [],
  });
  await client`
    insert into assessments
      (vehicle, as_of, rank, grade, pattern, life, limit_rpm, chance, km_per_day, facts, brief, detail)
    select key, ${at}, ${rank}, ${grade}, 'drift_all_commands', 1, 150, 0.4, ${kmPerDay},
      ${facts}::text::jsonb, ${brief}::text::jsonb, '{}'
    from vehicles where unit = ${unit}`;
  await client`
    insert into grade_changes (vehicle, at, from_grade, to_grade)
    select key, ${at}, null, ${grade} from vehicles where unit = ${unit}`;
}
