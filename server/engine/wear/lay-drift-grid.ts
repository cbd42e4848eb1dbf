import type { Growth, WearPrior } from './wear-model.ts';

/** Unit of the way since onset, so that its powers stay near 1. */
export const UNIT_KM = 10_000;
/** Feedback of fewer foldings is hardly told from even wear, of more from a jump. */
const LEAST_FOLDS = 1;
const MOST_FOLDS = 7;

/** A part of the plane of onset, km, and natural logarithm of the span, km. */
export interface DriftArea {
  onsetKm: [low: number, high: number];
  logSpan: [low: number, high: number];
}

/** One way of growth with its spans: g(span) scaled to 1. */
export interface DriftWay {
  growth: Growth;
  logShare: number;
  spanKm: Float64Array;
  /** 1 / g(span); not a number for a span that this growth does not have */
  s: Float64Array;
}

/** Cells of a grid over onset and span, for every way of growth. */
export interface DriftGrid {
  onsets: number;
  spans: number;
  fromKm: number;
  cellKm: number;
  /** logarithm of the prior of one cell, and of the density of each span within */
  logCell: number;
  densities: Float64Array;
  ways: DriftWay[];
}

/**
 * Grid of cases of drift over an area of onset and span.
 *
 * Cells of even size in onset and in log span, taken at their middles; prior of a cell: onset rate times its size, times
 * the normal density of log span; s = (10,000 km / span)^v for a power, 1 / expm1(span / v) for feedback.
 *
 * @param area   onset, km, and log span
 * @param onsets cells along the onset
 * @param spans  cells along the span
 * @param prior  of the platform
 * @returns grid
 * Source: own composition. Edges: feedback is had over 1 to 7 foldings. Errors: none.
 * @example layDriftGrid({ onsetKm: [0, 100], logSpan: [9, 10] }, 10, 5, defaultWearPrior).cellKm // 10
 */
export function layDriftGrid(area: DriftArea, onsets: number, spans: number, prior: WearPrior): DriftGrid {
  const cellKm = (area.onsetKm[1] - area.onsetKm[0]) / onsets;
  const step = (area.logSpan[1] - area.logSpan[0]) / spans;
  const logSpan = Float64Array.from({ length: spans }, (_, k) => area.logSpan[0] + (k + 0.5) * step);
  const spanKm = logSpan.map((one) => Math.exp(one));
  return {
    onsets,
    spans,
    fromKm: area.onsetKm[0],
    cellKm,
    logCell: Math.log(prior.onsetPerKm * cellKm * step),
    densities: logSpan.map((one) => logSpanDensity(one, prior)),
    ways: prior.growths.map(({ law, value, share }) => ({
      growth: { law, value },
      logShare: Math.log(share),
      spanKm,
      s: spanKm.map((km) => {
        if (law !== 'feedback') return (UNIT_KM / km) ** value;
        return km < LEAST_FOLDS * value || km > MOST_FOLDS * value ? Number.NaN : 1 / Math.expm1(km / value);
      }),
    })),
  };
}

function logSpanDensity(logSpan: number, prior: WearPrior): number {
  const z = (logSpan - prior.logSpanMean) / prior.logSpanSd;
  return -0.5 * z * z - Math.log(prior.logSpanSd * Math.sqrt(2 * Math.PI));
}
