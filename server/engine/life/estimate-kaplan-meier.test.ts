import { expect, it } from 'vitest';
import { estimateKaplanMeier } from './estimate-kaplan-meier.ts';

it('runs as its note says', () => {
  const points = estimateKaplanMeier(
    [
      { entry: 0, exit: 5, event: true, count: 1 },
      { entry: 0, exit: 6, event: false, count: 1 },
    ],
    0.95,
  );
  expect(points).toMatchObject([
    { x: 5, atRisk: 2, events: 1, survival: 0.5, se: expect.closeTo(0.3536, 4) },
  ]);
});

it('falls to 0 where the only one at risk fails, has no bounds there, and stays', () => {
  const points = estimateKaplanMeier(
    [
      { entry: 0, exit: 1, event: true, count: 1 },
      { entry: 2, exit: 4, event: true, count: 1 },
      { entry: 2, exit: 6, event: false, count: 4 },
    ],
    0.95,
  );
  expect(points).toMatchObject([
    { x: 1, atRisk: 1, survival: 0, se: null, low: null, high: null },
    { x: 4, atRisk: 5, survival: 0, se: null, censored: 4 },
  ]);
});

it('has nothing to say without failures', () => {
  expect(estimateKaplanMeier([{ entry: 0, exit: 6, event: false, count: 4 }], 0.95)).toEqual([]);
});
