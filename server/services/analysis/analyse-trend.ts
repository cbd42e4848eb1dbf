import type { TrendParts, TrendReply, TrendRequest } from '#server/contract/analysis.ts';
import { noTrendParts } from '#server/contract/no-trend.ts';
import { type Declined, decline, isDeclined } from '#server/engine/declined.ts';
import { type FlatThenRising, fitFlatThenRising } from '#server/engine/trend/fit-flat-then-rising.ts';
import { fitLevelShift } from '#server/engine/trend/fit-level-shift.ts';
import { fitOls } from '#server/engine/trend/fit-ols.ts';
import { fitTheilSen } from '#server/engine/trend/fit-theil-sen.ts';
import { compareDriftWithShift } from '#server/engine/trend/tell-shift-from-drift.ts';
import { testHamedRao } from '#server/engine/trend/test-hamed-rao.ts';
import { testMannKendall } from '#server/engine/trend/test-mann-kendall.ts';
import { chartTrend, type OrderedSeries } from './chart-trend.ts';

/** From this log likelihood ratio on one of two models is said to be clear: 7 to 1. */
const CLEAR = 2;

/** Every statistic of a series; what one of them cannot be had of is null, with its reason. */
export function analyseTrend(request: TrendRequest): TrendReply {
  const { confidence } = request;
  const series = putInOrder(request);
  const hinge = fitFlatThenRising({ ...series, confidence });
  const { cusum, ewma } = chartTrend(request, series, hinge);
  const parts: { [Name in keyof TrendParts]: NonNullable<TrendParts[Name]> | Declined } = {
    ols: describeLine(series),
    theil_sen: describeTheilSen(series, confidence),
    mann_kendall: describeMannKendall(series),
    hamed_rao: describeHamedRao(series),
    hinge: describeHinge(hinge),
    level_shift: describeShift(series, confidence, hinge),
    cusum,
    ewma,
  };
  const reply: TrendReply = { n: series.x.length, ...noTrendParts, declined: {} };
  for (const name of Object.keys(parts) as (keyof TrendParts)[]) {
    const part = refuseOverflow(parts[name]);
    if (isDeclined(part)) reply.declined[name] = part.declined;
    else Object.assign(reply, { [name]: part });
  }
  return reply;
}

function putInOrder({ x, y }: TrendRequest): OrderedSeries {
  const order = x.map((_, i) => i).sort((a, b) => (x[a] ?? 0) - (x[b] ?? 0) || a - b);
  return { x: order.map((i) => x[i] ?? 0), y: order.map((i) => y[i] ?? 0) };
}

/** JSON has no number for what went beyond the largest one, or was lost below the smallest. */
function refuseOverflow<T extends object>(part: T | Declined): T | Declined {
  if (isDeclined(part)) return part;
  const lost = Object.entries(part).find(([, one]) => typeof one === 'number' && !Number.isFinite(one));
  if (lost === undefined) return part;
  return decline(
    'numbers too large or too small to compute with',
    'values whose squares and quotients are numbers: use other units',
    `no number for ${lost[0]}`,
  );
}

function describeLine(series: OrderedSeries) {
  const line = fitOls(series);
  if (isDeclined(line)) return line;
  const { slope, intercept, seSlope, seIntercept, r2 } = line;
  return { slope, intercept, se_slope: seSlope, se_intercept: seIntercept, r2 };
}

function describeTheilSen(series: OrderedSeries, confidence: number) {
  const line = fitTheilSen({ ...series, confidence });
  if (isDeclined(line)) return line;
  const { slope, intercept, low, high } = line;
  return { slope, intercept, low, high, confidence };
}

function describeMannKendall(series: OrderedSeries) {
  const test = testMannKendall(series);
  if (isDeclined(test)) return test;
  const { s, varS, z, p, tauB } = test;
  return { s, var_s: varS, z, p, tau: tauB };
}

/** Lags are steps in the order of x. Where several values share an x, their order would be made up. */
function describeHamedRao({ x, y }: OrderedSeries) {
  const distinct = new Set(x).size;
  if (distinct < x.length)
    return decline(
      'several values at one x',
      'one value at each x, evenly spaced',
      `${x.length} values at ${distinct} different x`,
    );
  const test = testHamedRao({ y });
  if (isDeclined(test)) return test;
  const { varS, z, p } = test;
  return { var_s: varS, z, p };
}

function describeHinge(fit: FlatThenRising | Declined) {
  if (isDeclined(fit)) return fit;
  const { low, high, before, slopeAfter, pAgainstFlat } = fit;
  return { break: fit.break, low, high, before, slope_after: slopeAfter, p_against_flat: pAgainstFlat };
}

function describeShift(series: OrderedSeries, confidence: number, rise: FlatThenRising | Declined) {
  const shift = fitLevelShift({ ...series, confidence });
  if (isDeclined(shift)) return shift;
  const told = compareWithDrift(series, shift.rss, rise);
  const ratio = isDeclined(told) ? 0 : told.logLikelihoodRatio;
  const { lastBefore, firstAfter, low, high, before, after, f, p } = shift;
  return {
    last_before: lastBefore,
    first_after: firstAfter,
    low,
    high,
    before,
    after,
    f,
    p,
    log_ratio: isDeclined(told) || !Number.isFinite(ratio) ? null : ratio,
    favours:
      ratio >= CLEAR ? ('drift' as const) : ratio <= -CLEAR ? ('shift' as const) : ('neither' as const),
  };
}

/** A drift may rise or fall: the one that fits better counts. */
function compareWithDrift({ x, y }: OrderedSeries, rssShift: number, rise: FlatThenRising | Declined) {
  if (isDeclined(rise)) return rise;
  const fall = fitFlatThenRising({ x, y: y.map((one) => -one) });
  const rssDrift = isDeclined(fall) ? rise.rss : Math.min(rise.rss, fall.rss);
  return compareDriftWithShift({ n: x.length, rssDrift, rssShift, scale: 'estimated' });
}
