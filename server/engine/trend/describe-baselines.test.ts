import { expect, it } from 'vitest';
import { describeBaselines } from './describe-baselines.ts';
import { requirePoints } from './require-points.ts';

it('runs as its note says', () => {
  expect(describeBaselines(requirePoints('f', { x: [0, 1], y: [1, 3] })).rssFlat).toBe(2);
});

it('leaves nothing of what is flat or straight', () => {
  const flat = describeBaselines(requirePoints('f', { x: [0, 1, 5], y: [0.1, 0.1, 0.1] }));
  expect([flat.rssFlat, flat.rssStraight]).toEqual([0, 0]);
  const straight = describeBaselines(requirePoints('f', { x: [0, 1, 5], y: [2, 4, 12], weight: [1, 3, 2] }));
  expect(straight.rssStraight).toBeCloseTo(0, 12);
  expect(straight.mean).toBe((2 + 12 + 24) / 6);
});
