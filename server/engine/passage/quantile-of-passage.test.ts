import { expect, it } from 'vitest';
import { chanceOfPassage } from './chance-of-passage.ts';
import { quantileOfPassage } from './quantile-of-passage.ts';

it('runs as its note says', () => {
  expect(quantileOfPassage({ distance: 1, drift: 1, variance: 1 }, 0.6681020012232)).toBeCloseTo(1, 10);
});

it.each([
  [{ distance: 40, drift: 0.01, variance: 0.3 }],
  [{ distance: 1000, drift: 1, variance: 1e-6 }],
  [{ distance: 3, drift: 0, variance: 2 }],
  [{ distance: 0.5, drift: -0.2, variance: 1 }],
])('undoes the chance of %o', (approach) => {
  for (const p of [0.001, 0.1, 0.5, 0.8]) {
    const time = quantileOfPassage(approach, p);
    expect(typeof time === 'number' ? chanceOfPassage(approach, time) : time).toBeCloseTo(p, 6);
  }
});

it('declines a chance that is never reached', () => {
  expect(quantileOfPassage({ distance: 2, drift: -0.5, variance: 1 }, 0.2)).toEqual({
    declined: { reason: 'chance never reached', needed: 'below 0.1353', got: '0.2' },
  });
  expect(() => quantileOfPassage({ distance: 1, drift: 1, variance: 1 }, 1)).toThrow(
    'quantileOfPassage requires',
  );
});
