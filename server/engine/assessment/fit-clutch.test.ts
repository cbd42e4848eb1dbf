import { expect, it } from 'vitest';
import { defaultWearPrior } from '#server/engine/wear/wear-model.ts';
import { makePoint } from '#tests/helpers/make-stretch.ts';
import { fitClutch } from './fit-clutch.ts';

/** Healthy for 30 stretches, then 3 rpm each. */
const points = Array.from({ length: 50 }, (_, i) => makePoint(i, 18 + Math.max(0, i - 30) * 3));
const lastKm = points.at(-1)?.km ?? 0;

it('runs as its note says', () => {
  expect(fitClutch(points, 150, defaultWearPrior, 0, null).summary.drifting).toBeGreaterThan(0.95);
});

it.each([
  [null, 0],
  [lastKm - 100, 0],
  [lastKm + 400, 400],
  [lastKm + 9_000, 1_500],
])('goes on from the last point to the odometer now, %s, by %d km', (nowKm, sinceKm) => {
  const still = fitClutch(points, 150, defaultWearPrior, 0, null);
  const moved = fitClutch(points, 150, defaultWearPrior, 0, nowKm);
  expect(moved.outlookKm).toBe(lastKm + sinceKm);
  expect(moved.outlooks.map(({ goneKm }) => goneKm)).toEqual(
    still.outlooks.map(({ goneKm }) => goneKm + sinceKm),
  );
});

it('is less sure of the level where no stretch has a load', () => {
  const sd = (fit: ReturnType<typeof fitClutch>) => fit.summary.level.sd;
  const unloaded = points.map((point) => ({ ...point, loadPct: null }));
  expect(sd(fitClutch(unloaded, 150, defaultWearPrior, 0, null))).toBeGreaterThan(
    1.5 * sd(fitClutch(points, 150, defaultWearPrior, 0, null)),
  );
});

// Onset at 115,250 km by construction, 9,500 km before the last point: 1 - 9,500 / 12,000 = 0.21, give or take two stretches.
it('knows how little of the rise has been driven', () => {
  expect(fitClutch(points, 150, defaultWearPrior, 0, null).youth).toBeCloseTo(0.21, 0.8);
});
