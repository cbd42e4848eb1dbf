import { expect, it } from 'vitest';
import { countHolds } from './count-holds.ts';

it('runs as its note says', () => {
  const question = { days: [], candidates: [{ hold: true, quarters: 8, values: [] }] };
  expect(countHolds(question, [{ day: 0, gap: 0, candidates: [0] }])).toBe(1);
  expect(countHolds(question, [])).toBe(0);
});
