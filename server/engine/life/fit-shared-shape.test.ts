import { expect, it } from 'vitest';
import { fitSharedShape } from './fit-shared-shape.ts';
import type { ObservedLife } from './life-model.ts';

const life = (exit: number, event: boolean, entry = 0): ObservedLife => ({ entry, exit, event, count: 1 });

it('runs as its note says, and stays with the assumed shape where nothing failed', () => {
  expect(fitSharedShape([]).shape).toBeCloseTo(2.2, 9);
  expect(fitSharedShape([[life(100_000, false)]])).toEqual({
    shape: expect.closeTo(2.2, 9),
    varLogShape: expect.closeTo(0.25, 6),
  });
});

const groups = [
  [life(210_000, true), life(150_000, true), life(260_000, false), life(120_000, false, 60_000)],
  [life(95_000, true), life(130_000, true, 40_000), life(70_000, false), life(140_000, false, 90_000)],
  [life(300_000, false)],
];

// The likelihood written out term by term, its highest point by looking at every shape.
function logLikelihood(shape: number): number {
  let sum = -((Math.log(shape / 2.2) / 0.5) ** 2) / 2;
  for (const lives of groups) {
    const d = lives.filter(({ event }) => event).length;
    if (d === 0) continue;
    const use = lives.reduce(
      (all, { entry, exit }) => all + (exit / 1e5) ** shape - (entry / 1e5) ** shape,
      0,
    );
    const rate = d / use;
    for (const { entry, exit, event } of lives) {
      if (event) sum += Math.log(rate * shape) + (shape - 1) * Math.log(exit / 1e5);
      sum -= rate * ((exit / 1e5) ** shape - (entry / 1e5) ** shape);
    }
  }
  return sum;
}

it('finds the highest point of the likelihood with a scale for each group', () => {
  const shapes = Array.from({ length: 20_001 }, (_, i) => 0.5 * 20 ** (i / 20_000));
  const best = shapes.reduce((a, b) => (logLikelihood(b) > logLikelihood(a) ? b : a));
  const found = fitSharedShape(groups);
  expect(found.shape / best).toBeCloseTo(1, 3);
  const h = 1e-3;
  const [below, at, above] = [-h, 0, h].map((step) => logLikelihood(found.shape * Math.exp(step)));
  expect(found.varLogShape).toBeCloseTo(-(h ** 2) / ((below ?? 0) - 2 * (at ?? 0) + (above ?? 0)), 4);
});

it('is the same in another unit, and where a life stands for several', () => {
  const miles = groups.map((lives) =>
    lives.map((one) => ({ ...one, entry: one.entry / 1.609, exit: one.exit / 1.609 })),
  );
  expect(fitSharedShape(miles).shape).toBeCloseTo(fitSharedShape(groups).shape, 9);
  const twice = groups.map((lives) => lives.flatMap((one) => [one, one]));
  const counted = groups.map((lives) => lives.map((one) => ({ ...one, count: 2 })));
  expect(fitSharedShape(counted).shape).toBeCloseTo(fitSharedShape(twice).shape, 12);
});

it('does not run away where each group has one failure at its longest life', () => {
  const { shape } = fitSharedShape([[life(90_000, true)], [life(200_000, true)], [life(140_000, true)]]);
  expect(shape).toBeGreaterThan(2.2);
  expect(shape).toBeLessThan(6);
});
