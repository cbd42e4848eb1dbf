import { measureMedian } from '#server/engine/robust/measure-median.ts';
import type { TraceSamples, TraceWindow, WindowRows } from './trace-model.ts';

/**
 * Rows of a window as one: the median of each signal.
 *
 * Shifting where any row is, or where the gear differs from that of the row before, within the window or at its start.
 *
 * @param samples the trace, slip in rpm, duty, throttle and load in %, speed in km/h, fluid in degC
 * @param rows    which of its rows; at least one
 * @returns the window; a signal that none of its rows has is null
 * Source: running median as a filter, Tukey (1977), Exploratory Data Analysis, ch. 7 (from memory). Edges: with
 * neither gear nor shifting in the trace shifting is null. Errors: none.
 * @example summariseWindow(threeRows, { from: 0, to: 3, fromMs: 0, toMs: 1000, begins: true }).slipRpm // 12
 */
export function summariseWindow(samples: TraceSamples, rows: WindowRows): TraceWindow {
  const { from, to, fromMs, toMs, begins } = rows;
  const median = (signal: ArrayLike<number> | null): number | null => {
    if (signal === null) return null;
    const known: number[] = [];
    for (let i = from; i < to; i++) {
      const value = signal[i] ?? Number.NaN;
      if (!Number.isNaN(value)) known.push(value);
    }
    return known.length === 0 ? null : measureMedian(known);
  };
  return {
    fromMs,
    toMs,
    begins,
    slipRpm: median(samples.slipRpm) ?? Number.NaN,
    dutyPct: median(samples.dutyPct) ?? Number.NaN,
    throttlePct: median(samples.throttlePct),
    speedKmh: median(samples.speedKmh),
    loadPct: median(samples.loadPct),
    fluidC: median(samples.fluidC),
    shifting: isShifting(samples, rows),
  };
}

function isShifting({ gear, shifting }: TraceSamples, { from, to, begins }: WindowRows): boolean | null {
  if (gear === null && shifting === null) return null;
  for (let i = from; i < to; i++) {
    if (shifting?.[i] === 1) return true;
    const hasBefore = i > from || (!begins && i > 0);
    if (gear !== null && hasBefore && gear[i] !== gear[i - 1]) return true;
  }
  return false;
}
