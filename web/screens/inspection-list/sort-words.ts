import type { rankingSorts } from '#server/contract/ranking.ts';

export const sortWords: Record<(typeof rankingSorts)[number], string> = {
  rank: 'most avoided first',
  distance: 'nearest limit',
  chance: 'highest chance',
  drift: 'fastest drift',
  slip: 'most slip',
  last_reading: 'last reading',
  vehicle: 'unit number',
};
