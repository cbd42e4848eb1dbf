import { expect, it } from 'vitest';
import { describePassage } from './describe-passage.ts';

it('runs as its note says', () => {
  expect(describePassage({ distance: 10, drift: 2, variance: 4 })).toEqual({
    mean: 5,
    lambda: 25,
    sd: expect.closeTo(Math.sqrt(5), 12),
  });
});

it('declines without a drift, and refuses a limit already reached', () => {
  expect(describePassage({ distance: 10, drift: 0, variance: 4 })).toMatchObject({
    declined: { reason: 'no drift to the limit', needed: 'a drift above 0', got: '0' },
  });
  expect(() => describePassage({ distance: 0, drift: 1, variance: 1 })).toThrow('describePassage requires');
});
