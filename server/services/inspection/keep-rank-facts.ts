import type { Database } from '#db/client.ts';
import { listRankedKeys, type RankedKey, readRankFacts } from '#db/queries/list-rank-facts.ts';
import type { StoredFacts } from '#server/services/assessment/stored-assessment.ts';

export type RankFacts = Pick<StoredFacts, 'chances' | 'codes' | 'levelRpm' | 'baselineRpm'>;

interface Kept {
  asOfMs: number;
  facts: RankFacts;
}

/**
 * Facts that were read before, by vehicle. An assessment is stored as a whole with its moment, so what was read of it
 * stays true for as long as the moment is the same. Reading them anew for ten thousand vehicles takes most of the time
 * of a page.
 */
const keptOf = new WeakMap<Database, Map<number, Kept>>();

/** Every vehicle of the list with what orders it within another horizon. */
export async function readFleetFacts(db: Database): Promise<(RankedKey & { facts: RankFacts })[]> {
  const kept = keptOf.get(db) ?? new Map<number, Kept>();
  keptOf.set(db, kept);
  const keys = await listRankedKeys(db);
  const lacking = keys.filter(({ key, asOfMs }) => kept.get(key)?.asOfMs !== asOfMs);
  if (lacking.length > 0)
    for (const { key, asOfMs, facts } of await readRankFacts(
      db,
      lacking.map(({ key }) => key),
    ))
      kept.set(key, { asOfMs, facts: facts as RankFacts });
  if (kept.size > 2 * keys.length) forgetOthers(kept, keys);
  return keys.flatMap((one) => {
    const found = kept.get(one.key);
    return found === undefined ? [] : [{ ...one, facts: found.facts }];
  });
}

/** Retired vehicles must not fill the memory for ever. */
function forgetOthers(kept: Map<number, Kept>, keys: readonly RankedKey[]): void {
  const there = new Set(keys.map(({ key }) => key));
  for (const key of kept.keys()) if (!there.has(key)) kept.delete(key);
}
