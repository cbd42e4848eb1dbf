import type { CalmRow } from '#db/queries/calms.ts';
import { staysCalm } from '#server/engine/ranking/stays-calm.ts';

/** Readonly, since a replay asks it of what was known on a day of the past. */
type Word = Readonly<Pick<CalmRow, 'untilKm' | 'slipRpm' | 'nowKm' | 'levelRpm' | 'limitRpm'>> & {
  codes: readonly string[];
  knownCodes: readonly string[];
};

/** Whether the word that a shop gave still keeps the list calm about a vehicle. */
export function wordHolds({ untilKm, slipRpm, codes, knownCodes, ...facts }: Word): boolean {
  const hasNewCode = codes.some((code) => !knownCodes.includes(code));
  return staysCalm({ ...facts, hasNewCode }, { untilKm, slipRpm });
}
