import { expect, it } from 'vitest';
import { testMannKendall } from './test-mann-kendall.ts';

it('runs as its note says', () => {
  expect(testMannKendall({ y: [10, 15, 14, 20] })).toMatchObject({
    s: 4,
    z: expect.closeTo(1.019, 3),
    p: expect.closeTo(0.308, 3),
  });
});

it('says nothing of a trend where S is 0', () => {
  expect(testMannKendall({ y: [1, 3, 2, 0, 2] })).toMatchObject({ s: -1, z: expect.closeTo(0, 12), p: 1 });
});

it('declines equal values', () => {
  expect(testMannKendall({ y: [4, 4, 4, 4] })).toMatchObject({ declined: { reason: 'all y equal' } });
});
