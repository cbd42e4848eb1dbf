import { measureMedian } from '#server/engine/robust/measure-median.ts';
import type { FleetScore, Forecast, ListScore, Share } from './score-fleet.ts';

export const ways = ['engine', 'level', 'change', 'line'] as const;
export type Way = (typeof ways)[number];

/** The figures of the quality table for some fleets together. */
export interface Summary {
  fleets: number;
  vehicles: number;
  /** least, over the fleets, of average precision over that of the oracle */
  leastOfOracle: number;
  /** mean over the fleets */
  averagePrecision: Record<Way, number>;
  oracle: number;
  healthyFlagged: Record<Way, number>;
  nearFlagged: Record<Way, number>;
  /** medians, km */
  noticeKm: Record<Way, number>;
  crossings: number;
  forecasts: number;
  covered80: number;
  /** medians of |p50 - truth| / truth; a forecast without p50 counts as infinitely wrong */
  error: number;
  errorOfLine: number;
}

export function summariseScores(scores: readonly FleetScore[]): Summary {
  const each = <T>(figure: (way: Way) => T): Record<Way, T> => ({
    engine: figure('engine'),
    level: figure('level'),
    change: figure('change'),
    line: figure('line'),
  });
  const pooled = (way: Way, share: (score: ListScore) => Share): number => {
    const shares = scores.map((one) => share(one[way]));
    return sum(shares.map((one) => one.hit)) / sum(shares.map((one) => one.of));
  };
  const forecasts = scores.flatMap((one) => one.forecasts);
  const notices = (way: Way) => scores.flatMap((one) => one[way].noticeKm);
  return {
    fleets: scores.length,
    vehicles: sum(scores.map((one) => one.vehicles)),
    leastOfOracle: Math.min(...scores.map((one) => one.engine.averagePrecision / one.oracle)),
    averagePrecision: each((way) => mean(scores.map((one) => one[way].averagePrecision))),
    oracle: mean(scores.map((one) => one.oracle)),
    healthyFlagged: each((way) => pooled(way, (score) => score.healthy)),
    nearFlagged: each((way) => pooled(way, (score) => score.near)),
    noticeKm: each((way) => measureMedian(notices(way))),
    crossings: notices('engine').length,
    forecasts: forecasts.length,
    covered80: mean(forecasts.map((one) => (isCovered(one) ? 1 : 0))),
    error: measureMedian(forecasts.map(errorOf)),
    errorOfLine: measureMedian(scores.flatMap((one) => one.lineForecasts).map(errorOf)),
  };
}

/** An interval without an upper end reaches as far as it likes; without a lower one nothing was said. */
export function isCovered({ p10, p90, truthKm }: Forecast): boolean {
  return p10 !== null && p10 <= truthKm && (p90 === null || truthKm <= p90);
}

export function errorOf({ p50, truthKm }: Forecast): number {
  return p50 === null ? Number.POSITIVE_INFINITY : Math.abs(p50 - truthKm) / truthKm;
}

const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);
const mean = (values: readonly number[]) => sum(values) / values.length;
