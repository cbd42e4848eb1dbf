import { Matrix, solve } from 'ml-matrix';
import { measureSpreadLeft } from './measure-spread-left.ts';

/**
 * Effects of load, fluid temperature and duty on slip, in rpm per %, per degC and per %. Each is a straight line in
 * the rise u of slip above the platform's usual level, in 100 rpm, under the conditions driven in: effect(u) =
 * healthy + worn * u.
 */
export interface ConditionEffects {
  healthy: [load: number, fluid: number, duty: number];
  worn: [load: number, fluid: number, duty: number];
}

/** What one stretch tells of the effects. */
export interface EffectEvidence {
  /** weighted centred cross products ll lf ld ls ff fd fs dd ds ss of load %, fluid degC, duty %, slip rpm */
  moments: readonly number[];
  scaleRpm: number;
  /** sum of the weights in the moments */
  weight: number;
}

/** Before anything is seen: no effect, give or take so much. Own choice; it only steadies thin data. */
const BROAD_SD = { healthy: [0.5, 0.5, 1], worn: [2, 2, 4] } as const;
/** How far one vehicle's effects may lie from its platform's: this share of them, and at least so much. */
const SPREAD_SHARE = 0.4;
const SPREAD_LEAST = 0.1;
/** Spread that every stretch has at the least when stretches are weighed, rpm. */
const NOISE_RPM = 3;
/** The effects tell how much spread they leave, the spread tells the weights: twice round is enough. */
const ROUNDS = 2;

/** Which of the products ll lf ld ff fd dd stands at row and column of the symmetric matrix of load, fluid and duty. */
const PLACE = [0, 1, 2, 1, 3, 4, 2, 4, 5] as const;

const none: ConditionEffects = { healthy: [0, 0, 0], worn: [0, 0, 0] };

/**
 * Effects of the driving conditions on slip, from the readings' differences within stretches.
 *
 * Within a stretch the wear is constant, so the cross products of centred readings carry the effects free of
 * drift: slip - mean = (healthy + worn * u) . (x - mean) + error. Solved as weighted least squares with a normal
 * prior: (X'WX + P) b = X'Wy + P m, weights 1 / (spread + 3 rpm)^2, the spread being what the effects of the round
 * before leave of a stretch: a stretch that is ragged because it was driven cold and hot is the best witness of all.
 * For a vehicle the prior m is its platform's effects, P from their usual spread; for a platform m = 0 with a broad P.
 *
 * @param stretches evidence of one platform, or of one vehicle
 * @param rises     of each: its measured slip above the platform's usual level, in 100 rpm, under the conditions that it
 * was driven in
 * @param platform  the platform's effects when fitting a vehicle, else null
 * @returns effects; those of the prior where nothing is seen
 * Source: ridge shrinkage to a group, Lindley and Smith (1972), J. Roy. Statist. Soc. B 34, 1-41 (from memory).
 * Edges: a feed without load has zero load products, and keeps the prior there. Errors: none.
 * @example fitConditionEffects([], [], null).healthy // [0, 0, 0]
 */
export function fitConditionEffects(
  stretches: readonly EffectEvidence[],
  rises: ArrayLike<number>,
  platform: ConditionEffects | null,
): ConditionEffects {
  let fit = platform ?? solveEffects(stretches, rises, null, null);
  for (let round = 0; round < ROUNDS; round++) fit = solveEffects(stretches, rises, platform, fit);
  return fit;
}

function solveEffects(
  stretches: readonly EffectEvidence[],
  rises: ArrayLike<number>,
  platform: ConditionEffects | null,
  before: ConditionEffects | null,
): ConditionEffects {
  const prior = platform ?? none;
  const means = [...prior.healthy, ...prior.worn];
  const broad = [...BROAD_SD.healthy, ...BROAD_SD.worn];
  const precision = means.map((mean, i) => {
    const sd = platform === null ? (broad[i] ?? 1) : SPREAD_SHARE * Math.abs(mean) + SPREAD_LEAST;
    return 1 / (sd * sd);
  });
  // Sums over the stretches of weight * rise^k: products ll lf ld ff fd dd of the conditions for k = 0, 1, 2, theirs with
  // slip for k = 0, 1. This runs for every stretch of a fleet several times, so it is written out.
  const products = new Float64Array(18);
  const withSlip = new Float64Array(6);
  for (let i = 0; i < stretches.length; i++) {
    const stretch = stretches[i];
    if (stretch === undefined) continue;
    const { moments } = stretch;
    const rise = rises[i] ?? 0;
    const spread =
      before === null ? stretch.scaleRpm : measureSpreadLeft(moments, stretch.weight, rise, before);
    const ll = moments[0] ?? 0;
    const lf = moments[1] ?? 0;
    const ld = moments[2] ?? 0;
    const ls = moments[3] ?? 0;
    const ff = moments[4] ?? 0;
    const fd = moments[5] ?? 0;
    const fs = moments[6] ?? 0;
    const dd = moments[7] ?? 0;
    const ds = moments[8] ?? 0;
    let weight = 1 / (spread + NOISE_RPM) ** 2;
    for (let k = 0; k < 3; k++) {
      const p = 6 * k;
      products[p] = (products[p] ?? 0) + weight * ll;
      products[p + 1] = (products[p + 1] ?? 0) + weight * lf;
      products[p + 2] = (products[p + 2] ?? 0) + weight * ld;
      products[p + 3] = (products[p + 3] ?? 0) + weight * ff;
      products[p + 4] = (products[p + 4] ?? 0) + weight * fd;
      products[p + 5] = (products[p + 5] ?? 0) + weight * dd;
      if (k < 2) {
        const s = 3 * k;
        withSlip[s] = (withSlip[s] ?? 0) + weight * ls;
        withSlip[s + 1] = (withSlip[s + 1] ?? 0) + weight * fs;
        withSlip[s + 2] = (withSlip[s + 2] ?? 0) + weight * ds;
      }
      weight *= rise;
      // The higher powers of no rise are nothing.
      if (weight === 0) break;
    }
  }
  const information = new Float64Array(36);
  const target = new Float64Array(6);
  for (let i = 0; i < 6; i++) {
    for (let j = 0; j < 6; j++) {
      const k = Math.floor(i / 3) + Math.floor(j / 3);
      information[6 * i + j] = products[6 * k + (PLACE[3 * (i % 3) + (j % 3)] ?? 0)] ?? 0;
    }
    information[7 * i] = (information[7 * i] ?? 0) + (precision[i] ?? 0);
    target[i] = (precision[i] ?? 0) * (means[i] ?? 0) + (withSlip[i] ?? 0);
  }
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = solve(
    Matrix.from1DArray(6, 6, information),
    Matrix.columnVector(target),
  ).to1DArray();
  return { healthy: [a, b, c], worn: [d, e, f] };
}
