import { measureMedian } from '#server/engine/robust/measure-median.ts';
import { runningMedian } from '#server/engine/smooth/running-median.ts';
import { fitWear } from './fit-wear.ts';
import { measureRaggedness } from './measure-raggedness.ts';
import { reachShare } from './reach-share.ts';
import { settleCases } from './settle-cases.ts';
import { steadyRaggedness } from './steady-raggedness.ts';
import type { SeenClutch, WearPrior } from './wear-model.ts';

export interface Stray {
  /** logarithm of way gone over way foretold */
  logRatio: number;
  /** variance of the logarithm of the way among the cases themselves */
  ownVariance: number;
}

const SMOOTH_HALF = 3;
const LEAST_POINTS = 6;
/** A clutch tells something once it has risen by this share of the way to the limit. */
const LEAST_RISE = 0.35;
/** It is taken back to this share of its rise. */
const BACK_TO = 0.5;
const LEAST_DRIFTING = 0.8;

/**
 * How far the way gone strayed from the way foretold, for one clutch that has worn far.
 *
 * The clutch is cut off where its smoothed slip last stood at half of its rise (above the healthy slip of its first
 * points, at most up to the limit); its cases as of then foretell the way to where it stood at the end.
 *
 * @param clutch   points in order of km
 * @param limitRpm limit, rpm
 * @param prior    of the platform
 * @returns logarithm of the ratio, and the cases' own variance; null for a clutch that has not risen far, or whose
 * drift could not be seen at half of its rise
 * Source: prequential assessment of forecasts, Dawid (1984), J. Roy. Statist. Soc. A 147, 278-292 (from memory). Edges:
 * as said. Errors: none.
 * @example predictStray({ points: flatPoints, independence: 1, earliestKm: 0 }, 150, defaultWearPrior) // null
 */
export function predictStray(
  { points, independence, earliestKm }: SeenClutch,
  limitRpm: number,
  prior: WearPrior,
): Stray | null {
  if (points.length < 2 * LEAST_POINTS) return null;
  const smooth = runningMedian(
    points.map((point) => point.slipRpm),
    SMOOTH_HALF,
  );
  const healthy = Math.min(
    prior.baselineRpm + prior.baselineSd,
    measureMedian(smooth.slice(0, LEAST_POINTS)),
  );
  const firstPast = smooth.findIndex((slip) => slip >= limitRpm);
  const end = firstPast >= 0 ? firstPast : smooth.length - 1;
  const endRpm = Math.min(limitRpm, smooth[end] ?? healthy);
  if (endRpm - healthy < LEAST_RISE * (limitRpm - healthy)) return null;
  const half = healthy + BACK_TO * (endRpm - healthy);
  let cut = end;
  while (cut > 0 && (smooth[cut] ?? 0) > half) cut--;
  const [from, to] = [points[cut], points[end]];
  if (cut < LEAST_POINTS || from === undefined || to === undefined || to.km <= from.km) return null;

  const known = points.slice(0, cut + 1);
  const cases = fitWear(known, limitRpm, prior, independence, earliestKm).filter(
    (one) => one.kind === 'drift',
  );
  const raggedRpm = steadyRaggedness(measureRaggedness(cases, known, limitRpm), prior.raggedRpm);
  const outlooks = settleCases(cases, known, {
    limitRpm,
    logSpanMean: prior.logSpanMean,
    waySd: 0,
    raggedRpm,
    // What misleads as a whole misleads at both ends alike.
    levelShare: 0,
  }).filter((one) => one.goneKm > 0);
  const weight = outlooks.reduce((sum, one) => sum + one.weight, 0);
  if (weight < LEAST_DRIFTING) return null;
  const ways = outlooks.map((one) => {
    const height = Math.max(0, endRpm - one.baselineRpm) / (limitRpm - one.baselineRpm);
    const km = reachShare(one.growth, height, one.spanKm) - one.goneKm;
    return { log: Math.log(Math.max(100, km)), weight: one.weight / weight };
  });
  const mean = ways.reduce((sum, way) => sum + way.weight * way.log, 0);
  const ownVariance =
    ways.reduce((sum, way) => sum + way.weight * (way.log - mean) ** 2, 0) +
    Math.log1p(raggedRpm / Math.max(1, endRpm - half));
  return { logRatio: Math.log(to.km - from.km) - mean, ownVariance };
}
