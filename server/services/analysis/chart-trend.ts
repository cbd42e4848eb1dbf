import type { TrendParts, TrendRequest } from '#server/contract/analysis.ts';
import { type Baseline, estimateBaseline } from '#server/engine/charts/estimate-baseline.ts';
import { runCusum } from '#server/engine/charts/run-cusum.ts';
import { runEwma } from '#server/engine/charts/run-ewma.ts';
import { type Declined, decline, isDeclined } from '#server/engine/declined.ts';
import type { FlatThenRising } from '#server/engine/trend/fit-flat-then-rising.ts';

/** In order of x. */
export interface OrderedSeries {
  x: number[];
  y: number[];
}

type Charts = { [Name in 'cusum' | 'ewma']: NonNullable<TrendParts[Name]> | Declined };

/** A hinge with a p up to this is believed where the baseline is looked for. Own choice. */
const BELIEVED = 0.01;

/** Both charts against one baseline, the given one or that of the healthy start of the series. */
export function chartTrend(
  { baseline: given, cusum: { k, h }, ewma: { lambda, width } }: TrendRequest,
  { x, y }: OrderedSeries,
  hinge: FlatThenRising | Declined,
): Charts {
  const baseline = settleBaseline(given, y, countHealthy(x, hinge));
  if (isDeclined(baseline)) return { cusum: baseline, ewma: baseline };
  const { target, sd } = baseline;
  const at = (place: number | null) => (place === null ? null : (x[place] ?? null));
  const sums = runCusum({ values: y, target, k: k * sd, h: h * sd });
  const averages = runEwma({ values: y, target, sigma: sd, lambda, width });
  return {
    cusum: {
      high: sums.high.at(-1) ?? 0,
      low: sums.low.at(-1) ?? 0,
      first_alarm: at(sums.firstAlarm),
      target,
      sd,
      k,
      h,
    },
    ewma: {
      last: averages.z.at(-1) ?? target,
      first_alarm: at(averages.firstAlarm),
      target,
      sd,
      lambda,
      width,
    },
  };
}

function settleBaseline(
  { target, sd }: TrendRequest['baseline'],
  y: readonly number[],
  count: number,
): Pick<Baseline, 'target' | 'sd'> | Declined {
  if (target !== undefined && sd !== undefined) return { target, sd };
  const found = estimateBaseline(y, count);
  if (isDeclined(found)) {
    const { reason, needed, got } = found.declined;
    return decline(reason, `${needed}, or baseline.target and baseline.sd in the request`, got);
  }
  return { target: target ?? found.target, sd: sd ?? found.sd };
}

/** Values up to the break of a hinge that is believed, else the first third. */
function countHealthy(x: readonly number[], hinge: FlatThenRising | Declined): number {
  const third = Math.ceil(x.length / 3);
  if (isDeclined(hinge) || hinge.break === null || hinge.pAgainstFlat > BELIEVED) return third;
  const { break: end } = hinge;
  const before = x.filter((one) => one <= end).length;
  return before >= LEAST_BEFORE ? before : third;
}

/** A break after fewer values leaves too little to estimate a scale from. Own choice. */
const LEAST_BEFORE = 8;
