import { describe, expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { learnWear } from './learn-wear.ts';
import { defaultWearPrior, type SeenClutch, type WearPrior } from './wear-model.ts';

const prior = { ...defaultWearPrior, baselineRpm: 20, baselineSd: 5 };
/** Own choices of learnWear: clutches' worth of the usual shares of growth, and how far the usual span leans. */
const STEADY_GROWTHS = 30;
const LEAN = 0.6;
const WORN = 30;
const SPAN_KM = 30_000;
const LOG_SPAN_SD = 0.3;

interface Kind {
  power: number;
  healthy?: number;
  /** standard deviation of the logarithm by which the pace changes half way up */
  turnSd?: number;
  /** size of the jumps in which slip rises, rpm */
  jumpRpm?: number;
}

/**
 * Clutches seen every 500 km from 100,250 km on. 30 wear by a power of the way, from 110,000 to 120,000 km, over
 * 30,000 km give or take 0.3 in the logarithm, until the limit of 150 rpm; the healthy ones are seen to 150,000 km.
 * Noise 3 rpm.
 */
function makeClutches({ power, healthy = 0, turnSd = 0, jumpRpm = 0 }: Kind, seed: number): SeenClutch[] {
  const { normal, uniform } = seededRandom(seed);
  return Array.from({ length: WORN + healthy }, (_, c) => {
    const baseline = 20 + 3 * normal();
    const spanKm = SPAN_KM * Math.exp(LOG_SPAN_SD * normal());
    const onsetKm = c < WORN ? 110_000 + 10_000 * uniform() : Number.POSITIVE_INFINITY;
    const turned = Math.exp(turnSd * normal());
    const halfKm = spanKm * 0.5 ** (1 / power);
    // Waits of a Poisson process on the smooth rise: 40 of 20 rpm on the mean are 800, far past the limit.
    const jumps = Array.from({ length: jumpRpm > 0 ? 40 : 0 }, () => -jumpRpm * Math.log(1 - uniform()));
    const jumpsAt = jumps.map((_, k) => jumps.slice(0, k + 1).reduce((a, b) => a + b, 0));
    const points = [];
    for (let km = 100_250; onsetKm < 150_000 || km < 150_250; km += 500) {
      const gone = Math.max(0, km - onsetKm);
      const path = gone <= halfKm ? gone : halfKm + (gone - halfKm) * turned;
      const smooth = (150 - baseline) * (path / spanKm) ** power;
      const slip = jumpRpm > 0 ? jumpRpm * jumpsAt.filter((at) => at <= smooth).length : smooth;
      points.push({ km, slipRpm: baseline + slip + 3 * normal(), variance: 9 });
      if (baseline + smooth > 150) break;
    }
    return { points, independence: 1, earliestKm: 100_000 };
  });
}

const shareOf = (learned: WearPrior, value: number) =>
  learned.growths.find((growth) => growth.law === 'power' && growth.value === value)?.share ?? Number.NaN;

it('runs as its note says', () => {
  expect(learnWear([], 150, defaultWearPrior).waySd).toBeCloseTo(0.4, 12);
});

it('leaves the prior as it came without clutches, but for a usual span that leans to the near side', () => {
  const learned = learnWear([], 150, prior);
  expect(learned.logSpanMean).toBeCloseTo(prior.logSpanMean - LEAN, 12);
  expect(learned.logSpanSd).toBeCloseTo(prior.logSpanSd, 9);
  expect(learned.onsetPerKm).toBeCloseTo(prior.onsetPerKm, 15);
  expect(learned.raggedRpm).toBeCloseTo(prior.raggedRpm, 9);
  prior.growths.forEach((growth, i) => {
    expect(learned.growths[i]?.share).toBeCloseTo(growth.share, 12);
  });
  expect(learned).toMatchObject({ baselineRpm: 20, baselineSd: 5 });
  expect(learnWear([{ points: [], independence: 1, earliestKm: 0 }], 150, prior)).toEqual(learned);
});

describe.each([1, 2, 3])('thirty worn clutches, platform %d', (seed) => {
  const even = learnWear(makeClutches({ power: 1 }, seed), 150, prior);
  const cubic = learnWear(makeClutches({ power: 3 }, seed), 150, prior);

  /** Share of a growth where so many of the 30 worn clutches are told to grow by it. */
  const steadied = (usual: number, told: number) => (STEADY_GROWTHS * usual + told) / (STEADY_GROWTHS + WORN);

  // By hand: (30 * 0.3 + 30) / 60 = 0.65 of even wear where all 30 are told, 9 / 60 = 0.15 where none is even. Slip
  // seen to the limit tells even wear from any other: one of 30 may go astray.
  it('tells a platform of even wear from one that accelerates', () => {
    expect(shareOf(even, 1)).toBeGreaterThan(steadied(0.3, 29));
    expect(shareOf(even, 1)).toBeLessThan(steadied(0.3, 30) + 1e-9);
    expect(shareOf(cubic, 1)).toBeGreaterThan(steadied(0.3, 0) - 1e-9);
    expect(shareOf(cubic, 1)).toBeLessThan(steadied(0.3, 1));
  });

  // By hand: (30 * 0.16 + 30) / 60 = 0.58 of power 3 where all are told. Under 3 rpm of noise an exponential of
  // 11,000 km, or power 6 from an earlier onset, passes for it: one in four may go there.
  it('finds the power, but for what is like it', () => {
    expect(shareOf(cubic, 3)).toBeLessThan(steadied(0.16, 30) + 1e-9);
    expect(shareOf(cubic, 3)).toBeGreaterThan(steadied(0.16, 22));
    for (const learned of [even, cubic])
      expect(learned.growths.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
  });

  // By hand: 6 clutches' worth of ln 18,000 and 30 of ln 30,000, less the lean. Standard error of the mean 0.3 /
  // sqrt(30) * 30 / 36 = 0.046: 4 of them. Variance: (6 * 0.75^2 + 30 * 0.3^2) / 36 within, 6 * 30 / 36^2 * (ln
  // 30,000 / 18,000)^2 between: 0.45^2; its standard error 0.09 * sqrt(2 / 30) * 30 / 36 = 0.02, of the deviation as
  // much: 4 of them. Of a cubic the onset is known to some thousands of kilometres and the prior pulls it, so half as
  // much again.
  it('learns the usual span and its spread', () => {
    const mean = (6 * Math.log(18_000) + 30 * Math.log(30_000)) / 36 - LEAN;
    const sd = Math.sqrt((6 * 0.75 ** 2 + 30 * 0.3 ** 2) / 36 + (180 / 36 ** 2) * Math.log(5 / 3) ** 2);
    expect(Math.abs(even.logSpanMean - mean)).toBeLessThan(4 * 0.046);
    expect(Math.abs(even.logSpanSd - sd)).toBeLessThan(0.08);
    expect(Math.abs(cubic.logSpanMean - mean)).toBeLessThan(6 * 0.046);
    expect(Math.abs(cubic.logSpanSd - sd)).toBeLessThan(0.12);
  });

  // Smooth paths go where they were foretold: nothing beyond what the cases themselves disagree, so the least of each.
  it('finds smooth paths smooth', () => {
    for (const learned of [even, cubic]) {
      expect(learned.waySd).toBeLessThan(0.25);
      expect(learned.raggedRpm).toBeLessThan(1.5);
    }
  });
});

// By hand: 2 onsets in 300,000 km assumed. 30 worn clutches at risk from 100,250 to 115,000 on the mean, 20 healthy
// ones over 49,500 km: 32 / (300,000 + 442,500 + 990,000). Onsets are spread over 10,000 km: 2,900 / sqrt(30) * 30 =
// 16,000 km of 1.7 million, and of each the place is known to a thousand or two: 3 % for all.
it('learns how often clutches begin to wear from those that do and the kilometres of all', () => {
  const learned = learnWear(makeClutches({ power: 1, healthy: 20 }, 4), 150, prior);
  expect(Math.abs((learned.onsetPerKm * 1_732_500) / 32 - 1)).toBeLessThan(0.03);
});

it('takes wear that was there at the first point for no onset', () => {
  const begun = makeClutches({ power: 1 }, 5).map((clutch) => ({
    ...clutch,
    earliestKm: 0,
    points: clutch.points.filter((point) => point.km > 125_000),
  }));
  const learned = learnWear(begun, 150, prior);
  // By hand: 2 onsets assumed in 300,000 km and next to none seen: 30 of them would make 1 / 10,000 km.
  expect(learned.onsetPerKm).toBeLessThan(4 / 300_000);
});

// By hand: 8 clutches' worth of 0.4^2 and 30 of 0.5^2: sqrt((8 * 0.16 + 30 * 0.25) / 38) = 0.48. Standard error of a
// variance of 30: 0.25 * sqrt(2 / 30) * 30 / 38 = 0.05, of its root 0.05 / (2 * 0.48) = 0.053; 3 of them.
it('learns how far the way ahead strays from what half of the rise foretold', () => {
  const learned = learnWear(makeClutches({ power: 1, turnSd: 0.5 }, 6), 150, prior);
  expect(Math.abs(learned.waySd - 0.48)).toBeLessThan(0.16);
});

// By hand: 200 rpm of rise at 6 rpm assumed, 30 clutches of about 130 rpm. Of jumps of 20 rpm blocks of four points
// show 7/12 (see measureRaggedness), 11.7 rpm: (1,200 + 3,900 * 11.7) / 4,100 = 11.4 at the most, as paths fitted to
// the jumps follow them; a third of it must be left.
it('learns in what jumps slip rises', () => {
  const learned = learnWear(makeClutches({ power: 1, jumpRpm: 20 }, 7), 150, prior);
  expect(learned.raggedRpm).toBeGreaterThan(11.4 / 3);
  expect(learned.raggedRpm).toBeLessThan(11.4 * 1.2);
});
