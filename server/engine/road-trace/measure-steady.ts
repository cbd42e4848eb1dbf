import { isDeclined } from '#server/engine/declined.ts';
import { measureMedian } from '#server/engine/robust/measure-median.ts';
import { fitTheilSen } from '#server/engine/trend/fit-theil-sen.ts';
import type { SteadyStretch, TraceWindow } from './trace-model.ts';

/** A slope is no better known from more windows than these, spread evenly. */
const MOST_FOR_SLOPE = 240;

/**
 * Slip of a steady stretch: command, level, and whether it falls.
 *
 * Duty = mean; slip and fluid = median; slope = Theil-Sen over the middles of the windows, with 95 % limits.
 *
 * @param windows of the stretch: slip in rpm, duty in %, fluid in degC
 * @returns the stretch, slope in rpm per s
 * Source: as {@link fitTheilSen}. The limits take windows as independent; slip of neighbouring seconds is not quite, so
 * that they are a little too narrow. Edges: below 3 windows the slope and its limits are 0; of more than 240 windows
 * the slope is that of some spread evenly. Errors: throws without windows.
 * @example measureSteady(eightSeconds).slope.estimate // -2
 */
export function measureSteady(windows: readonly TraceWindow[]): SteadyStretch {
  const [first, last] = [windows[0], windows.at(-1)];
  if (first === undefined || last === undefined) throw new Error('measureSteady requires windows');
  const every = Math.ceil(windows.length / MOST_FOR_SLOPE);
  const some = windows.filter((_, i) => i % every === 0);
  const fit = fitTheilSen({
    x: some.map(({ fromMs, toMs }) => (fromMs + toMs - 2 * first.fromMs) / 2000),
    y: some.map(({ slipRpm }) => slipRpm),
  });
  const fluids = windows.map(({ fluidC }) => fluidC).filter((value) => value !== null);
  return {
    fromMs: first.fromMs,
    toMs: last.toMs,
    dutyPct: windows.reduce((sum, { dutyPct }) => sum + dutyPct, 0) / windows.length,
    slipRpm: measureMedian(windows.map(({ slipRpm }) => slipRpm)),
    slope: isDeclined(fit)
      ? { estimate: 0, low: 0, high: 0 }
      : { estimate: fit.slope, low: fit.low, high: fit.high },
    fluidC: fluids.length === 0 ? null : measureMedian(fluids),
  };
}
