import { expect, it } from 'vitest';
import { fitThroughOrigin } from './fit-through-origin.ts';

it('runs as its note says', () => {
  expect(fitThroughOrigin({ x: [1, 2], y: [2, 4] })).toMatchObject({ slope: 2, r2: 1, rss: 0 });
});

it('declines one point and x that are all 0', () => {
  expect(fitThroughOrigin({ x: [1], y: [2] })).toMatchObject({ declined: { reason: 'too few points' } });
  expect(fitThroughOrigin({ x: [0, 0], y: [2, 1] })).toMatchObject({ declined: { reason: 'all x are 0' } });
  expect(fitThroughOrigin({ x: [1, 2], y: [0, 0] })).toMatchObject({ slope: 0, r2: null });
});
