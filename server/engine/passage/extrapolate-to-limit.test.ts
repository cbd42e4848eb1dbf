import { expect, it } from 'vitest';
import { extrapolateToLimit } from './extrapolate-to-limit.ts';

it('runs as its note says', () => {
  expect(extrapolateToLimit({ t: [0, 1, 2], y: [1, 2, 3], limit: 11, path: 'line' })).toEqual({
    time: expect.closeTo(10, 12),
    slope: expect.closeTo(1, 12),
  });
});

it('goes through the origin when asked', () => {
  expect(extrapolateToLimit({ t: [1, 2], y: [2, 4], limit: 10, path: 'through-origin' })).toMatchObject({
    time: 5,
  });
});

it('declines a path that does not rise, and too few readings', () => {
  expect(extrapolateToLimit({ t: [0, 1, 2], y: [3, 2, 1], limit: 11, path: 'line' })).toMatchObject({
    declined: { reason: 'path does not rise' },
  });
  expect(extrapolateToLimit({ t: [0], y: [3], limit: 11, path: 'line' })).toMatchObject({
    declined: { reason: 'too few points' },
  });
});
