import { expect, it } from 'vitest';
import type { Series } from '#server/engine/assessment/build-series.ts';
import { makePoint } from '#tests/helpers/make-stretch.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { fitBand } from './fit-band.ts';

function makeBand(n: number, curve: (i: number) => number): Series {
  const { normal } = seededRandom(5);
  const points = Array.from({ length: n }, (_, i) => makePoint(i, curve(i) + 2 * normal()));
  return { band: 0, points, effects: { healthy: [0, 0, 0], worn: [0, 0, 0] }, rises: [] };
}

// 20 points of 2 rpm about a slope, x from 0 to 9,500 km: se = 2 / sqrt(20 * 33.25) / 500 km = 0.16 rpm per 1,000 km.
it('draws flat and then rising, with onset and rate for each 1,000 km', () => {
  const [fit] = fitBand(
    makeBand(40, (i) => 20 + 2 * Math.max(0, i - 20)),
    1,
    0,
  );
  expect(Math.abs((fit?.onset_km?.estimate ?? 0) - 110_250)).toBeLessThan(1_000);
  expect(Math.abs((fit?.drift_rpm_per_1000km?.estimate ?? 0) - 4)).toBeLessThan(0.7);
  expect(fit?.line).toHaveLength(3);
  expect(fit).toMatchObject({ life: 1, from_km: 100_250, to_km: 119_750 });
});

// 20 healthy points of 2 rpm: 1.96 * 2 / sqrt(20) = 0.88 either way, not the 0.62 of all 40.
it('takes the interval of the healthy slip from the stretches before the onset', () => {
  const [fit] = fitBand(
    makeBand(40, (i) => 20 + 2 * Math.max(0, i - 20)),
    1,
    0,
  );
  const { low = 0, high = 0 } = fit?.baseline_rpm ?? {};
  expect(high - low).toBeGreaterThan(1.5);
  expect(high - low).toBeLessThan(2.1);
});

it('draws a level line where nothing rises', () => {
  const [fit] = fitBand(
    makeBand(40, () => 20),
    1,
    0,
  );
  expect(fit).toMatchObject({ onset_km: null, drift_rpm_per_1000km: null });
  expect(fit?.line[0]?.[1]).toBe(fit?.line[1]?.[1]);
  expect(Math.abs((fit?.baseline_rpm.estimate ?? 0) - 20)).toBeLessThan(1.3);
});

it('draws nothing for too few points, another life or later kilometres', () => {
  const band = makeBand(40, () => 20);
  expect(
    fitBand(
      makeBand(4, () => 20),
      1,
      0,
    ),
  ).toEqual([]);
  expect(fitBand(band, 2, 0)).toEqual([]);
  expect(fitBand(band, 1, 500_000)).toEqual([]);
});

// One in eight stretches 200 rpm up would lift a mean by 25 rpm; the error of 40 points of 2 rpm is 0.3.
it('is not pulled up by a few stretches far above the others', () => {
  const [fit] = fitBand(
    makeBand(40, (i) => (i % 8 === 4 ? 220 : 20)),
    1,
    0,
  );
  expect(Math.abs((fit?.baseline_rpm.estimate ?? 0) - 20)).toBeLessThan(3);
});
