import { measureMedian } from '#server/engine/robust/measure-median.ts';
import { poolByPrecision } from '#server/engine/robust/pool-by-precision.ts';
import { runningMedian } from '#server/engine/smooth/running-median.ts';
import type { WearPoint } from '#server/engine/wear/wear-model.ts';
import type { SeriesPoint } from './build-series.ts';

/** Half width of the running median that a lone far point is told against, in stretches. */
const HALF = 3;
/** Standard errors beyond which a point's variance is raised so that its pull stays bounded. */
const FAR = 2.5;
/** Half width of the running median whose residuals show how far errors go together. */
const SLOW_HALF = 12;
const LEAST_INDEPENDENCE = 0.25;
/** More points than this are merged in pairs: the fit needs the shape, not every stretch. */
const MOST_POINTS = 160;
/** The last so many are never merged: where slip stands now is read from them. */
const KEPT_POINTS = 24;

export interface PreparedPoints {
  points: WearPoint[];
  /** share of independent information, from the lag-1 autocorrelation of the residuals */
  independence: number;
}

/**
 * Makes the points of one life ready for the wear fit: bounds the pull of lone far points, merges neighbours of
 * long lives, and measures how far errors go together.
 *
 * variance_i = se_i^2 * max(1, |r_i| / (2.5 se_i))^2 with r_i against a running median of 7 (the weight function
 * of Huber's estimate); independence = (1 - r1) / (1 + r1), r1 the lag-1 autocorrelation of standardised
 * residuals against a running median of 25.
 *
 * @param points series at the reference point of one life, in order of km
 * @returns points and independence from 0.25 to 1
 * Source: variance inflation of an AR(1) mean, Bartlett (1935); weights, Huber (1964) (both from memory).
 * Edges: fewer than 8 points count as independent; more than 160 are merged in pairs. Errors: none.
 * @example preparePoints([]).independence // 1
 */
export function preparePoints(points: readonly SeriesPoint[]): PreparedPoints {
  const slips = points.map((point) => point.slipRpm);
  const near = runningMedian(slips, HALF);
  const slow = runningMedian(slips, SLOW_HALF);
  const scaled = points.map((point, i) => (point.slipRpm - (slow[i] ?? 0)) / point.seRpm);
  let ready = points.map((point, i) => {
    const off = Math.abs(point.slipRpm - (near[i] ?? 0)) / (FAR * point.seRpm);
    return { km: point.km, slipRpm: point.slipRpm, variance: point.seRpm ** 2 * Math.max(1, off) ** 2 };
  });
  while (ready.length > MOST_POINTS)
    ready = [...mergePairs(ready.slice(0, -KEPT_POINTS)), ...ready.slice(-KEPT_POINTS)];
  const correlation = points.length < 8 ? 0 : lagOne(scaled);
  const independence = (1 - correlation) / (1 + correlation);
  return { points: ready, independence: Math.min(1, Math.max(LEAST_INDEPENDENCE, independence)) };
}

function lagOne(values: readonly number[]): number {
  const bound = 3;
  const centre = measureMedian(values);
  const kept = values.map((value) => Math.max(-bound, Math.min(bound, value - centre)));
  const squares = kept.reduce((sum, value) => sum + value * value, 0);
  const products = kept.slice(1).reduce((sum, value, i) => sum + value * (kept[i] ?? 0), 0);
  return squares > 0 ? Math.max(0, Math.min(0.9, products / squares)) : 0;
}

function mergePairs(points: readonly WearPoint[]): WearPoint[] {
  const merged: WearPoint[] = [];
  for (let i = 0; i < points.length; i += 2) {
    const pair = points.slice(i, i + 2);
    const errors = pair.map((point) => Math.sqrt(point.variance));
    const pooled = (figure: (point: WearPoint) => number) => poolByPrecision(pair.map(figure), errors);
    const { mean, se } = pooled((point) => point.slipRpm);
    merged.push({ km: pooled((point) => point.km).mean, slipRpm: mean, variance: se ** 2 });
  }
  return merged;
}
