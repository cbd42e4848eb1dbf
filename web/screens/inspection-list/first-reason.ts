import type { RankingRow } from '#server/contract/ranking.ts';

/** The strongest reason in words; without one, what is missing for a judgement. */
export function firstReason({ reasons, missing }: Pick<RankingRow, 'reasons' | 'missing'>): string {
  const [reason] = reasons;
  if (reason !== undefined) return reason;
  const [gap] = missing;
  return gap === undefined ? '' : `Missing: ${gap}`;
}
