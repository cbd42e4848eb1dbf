import { describe, expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { predictStray } from './predict-stray.ts';
import { defaultWearPrior } from './wear-model.ts';

const prior = { ...defaultWearPrior, baselineRpm: 20, baselineSd: 5 };

/** A clutch seen every 500 km from 100,000 km on, slip by a curve of the kilometres since then. */
function makeClutch(n: number, curve: (alongKm: number) => number, seed: number | null = null) {
  const { normal } = seededRandom(seed ?? 0);
  const points = Array.from({ length: n }, (_, i) => ({
    km: 100_000 + 500 * i,
    slipRpm: curve(500 * i) + (seed === null ? 0 : 3 * normal()),
    variance: 9,
  }));
  return { points, independence: 1, earliestKm: 100_000 };
}

/** 6.5 rpm per 1,000 km from 10,000 km on; after 10,000 more, half of the way to 150 rpm, the pace changes. */
const rise = (pace: number) => (along: number) =>
  along <= 20_000 ? 20 + Math.max(0, along - 10_000) * 0.0065 : 85 + (along - 20_000) * 0.0065 * pace;

it('runs as its note says', () => {
  const flatPoints = makeClutch(60, () => 15).points;
  expect(
    predictStray({ points: flatPoints, independence: 1, earliestKm: 0 }, 150, defaultWearPrior),
  ).toBeNull();
});

describe('a clutch that has worn to the limit', () => {
  // 10,000 km foretold, give or take a stretch of 500 km at either end: 0.07.
  it('strays by nothing where it went on as before', () => {
    expect(Math.abs(predictStray(makeClutch(100, rise(1)), 150, prior)?.logRatio ?? Number.NaN)).toBeLessThan(
      0.07,
    );
  });

  // By hand: the limit after 20,000 or 5,000 km instead of 10,000: ln 2 either way; a stretch in 5,000 km is 0.1.
  it('strays by the logarithm of way gone over way foretold', () => {
    const slowed = predictStray(makeClutch(100, rise(0.5)), 150, prior)?.logRatio ?? Number.NaN;
    const hastened = predictStray(makeClutch(100, rise(2)), 150, prior)?.logRatio ?? Number.NaN;
    expect(Math.abs(slowed - Math.log(2))).toBeLessThan(0.1);
    expect(Math.abs(hastened + Math.log(2))).toBeLessThan(0.1);
  });

  // 20 points on 6.5 rpm per 1,000 km: se(slope) = 3 / sqrt(20 * 33.25 * 0.25) = 0.23, 4 %, were onset and growth known.
  // They are not: what the cases say of themselves, 3 standard deviations of it.
  it('strays under noise by no more than the cases themselves allow', () => {
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      const stray = predictStray(makeClutch(100, rise(1), seed), 150, prior);
      const sd = Math.sqrt(stray?.ownVariance ?? Number.NaN);
      expect(sd).toBeLessThan(0.3);
      expect(Math.abs(stray?.logRatio ?? Number.NaN)).toBeLessThan(3 * sd);
    }
  });

  it('is judged by its end alone: what comes after the limit changes nothing', () => {
    const past = (along: number) => Math.min(300, rise(1)(along));
    const [to, beyond] = [
      predictStray(makeClutch(65, past), 150, prior),
      predictStray(makeClutch(100, past), 150, prior),
    ];
    expect(beyond).toEqual(to);
  });
});

it('asks for a rise of 35 % of the way: from 20 rpm to 65.5', () => {
  const upTo = (rpm: number) => makeClutch(60, (along) => Math.min(rpm, rise(1)(along)));
  expect(predictStray(upTo(64), 150, prior)).toBeNull();
  expect(predictStray(upTo(67), 150, prior)).not.toBeNull();
});

it('asks for points before half of the rise, and for a drift to be seen by then', () => {
  // Half of the rise is at the fourth point.
  expect(
    predictStray(
      makeClutch(40, (along) => 20 + along * 0.04),
      150,
      prior,
    ),
  ).toBeNull();
  // A jump at the 31st: nothing was to be seen before.
  expect(
    predictStray(
      makeClutch(40, (along) => (along >= 15_000 ? 120 : 20)),
      150,
      prior,
    ),
  ).toBeNull();
  expect(
    predictStray(
      makeClutch(11, (along) => 20 + along * 0.013),
      150,
      prior,
    ),
  ).toBeNull();
});
