import { expect, it } from 'vitest';
import { findLimitReached } from './find-limit-reached.ts';

const at = (...slips: number[]) => slips.map((slipRpm, i) => ({ slipRpm, i }));

it('runs as its note says', () => {
  expect(findLimitReached([{ slipRpm: 160 }, { slipRpm: 150 }, { slipRpm: 170 }], 150)).toEqual({
    reached: { slipRpm: 160 },
    told: { slipRpm: 170 },
  });
});

it('needs three in a row', () => {
  expect(findLimitReached(at(160, 149, 170, 180), 150)).toBeNull();
  expect(findLimitReached(at(160, 149, 170, 180, 150), 150)).toMatchObject({
    reached: { i: 2 },
    told: { i: 4 },
  });
  expect(findLimitReached([], 150)).toBeNull();
});
