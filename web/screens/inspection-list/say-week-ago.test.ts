import { expect, it } from 'vitest';
import { sayWeekAgo } from './say-week-ago.ts';

const before = { rank: 1_204, grade: 'watch' as const, km_p50: null };

it('says what was known a week ago', () => {
  const known = { ...before, reference_slip_rpm: 41.3, chance_within_horizon: 0.124 };
  expect(sayWeekAgo({ week_ago: known })).toBe('rank 1,204, watch, 41\u00a0rpm, chance 12\u00a0%');
  const bare = { ...before, reference_slip_rpm: null, chance_within_horizon: null };
  expect(sayWeekAgo({ week_ago: bare })).toBe('rank 1,204, watch');
  expect(sayWeekAgo({ week_ago: { ...bare, rank: null } })).toBe('watch');
  expect(sayWeekAgo({ week_ago: null })).toBe('not known');
});
