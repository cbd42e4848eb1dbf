import type { RankingQuery } from '#server/contract/ranking.ts';

export const bookingWords: Record<NonNullable<RankingQuery['booking']>, string> = {
  none: 'without a booking',
  any: 'with a booking',
  open: 'booked, day ahead',
  put_off: 'put off',
  past: 'over, not closed',
};

export const changedWords: Record<NonNullable<RankingQuery['changed']>, string> = {
  worse: 'got worse',
  better: 'got better',
  any: 'another grade',
};
