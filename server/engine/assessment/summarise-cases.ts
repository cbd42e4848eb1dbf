import { weightedQuantiles } from '#server/engine/smooth/weighted-quantiles.ts';
import type { WearCase } from '#server/engine/wear/wear-model.ts';
import type { Interval } from './assessment-model.ts';

/** Posterior of one clutch in the figures that people read. */
export interface CaseSummary {
  drifting: number;
  stepping: number;
  accelerating: number;
  level: { mean: number; sd: number };
  baseline: Interval;
  /** of the drifting cases, else of the jumps; null where neither has weight */
  onset: Interval | null;
  driftRpmPerKm: Interval | null;
  jumpRpm: number;
}

/**
 * Sums the cases of wear up: probabilities of each kind, level, baseline, onset and drift rate.
 *
 * Level and baseline are means and quantiles over all cases; onset and drift rate over the drifting ones, the rate
 * being (level - baseline) / (now - onset).
 *
 * @param cases of one clutch, weights summing to 1
 * @param nowKm odometer of the last point, km
 * @param ahead their outlooks, settled at the last points, which tell the level; without them the cases do
 * @returns summary; intervals hold 95 %
 * Source: posterior summaries of fitWear. Edges: where the jumps weigh more than the drifting cases,
 * the onset is theirs. Errors: none.
 * @example summariseCases(cases, 120_000).drifting
 */
export function summariseCases(
  cases: readonly WearCase[],
  nowKm: number,
  ahead: readonly Pick<WearCase, 'weight' | 'levelRpm' | 'levelSd'>[] = cases,
): CaseSummary {
  const share = (kind: WearCase['kind']) =>
    cases.reduce((sum, one) => sum + (one.kind === kind ? one.weight : 0), 0);
  const drifting = cases.filter((one) => one.kind === 'drift' && one.onsetKm < nowKm);
  const steps = cases.filter((one) => one.kind === 'step');
  const driftShare = share('drift');
  const stepShare = share('step');
  const mean = ahead.reduce((sum, one) => sum + one.weight * one.levelRpm, 0);
  const variance = ahead.reduce(
    (sum, one) => sum + one.weight * (one.levelSd ** 2 + (one.levelRpm - mean) ** 2),
    0,
  );
  const told = driftShare >= stepShare ? drifting : steps;
  const fast = drifting.reduce(
    (sum, one) => sum + (one.growth.law === 'feedback' || one.growth.value > 1 ? one.weight : 0),
    0,
  );
  return {
    drifting: driftShare,
    stepping: stepShare,
    accelerating: driftShare > 0 ? fast / driftShare : 0,
    level: { mean, sd: Math.sqrt(variance) },
    baseline: baselineInterval(cases),
    onset: interval(told, (one) => one.onsetKm),
    driftRpmPerKm: interval(
      drifting,
      (one) => (one.levelRpm - one.baselineRpm) / Math.max(250, nowKm - one.onsetKm),
    ),
    jumpRpm: steps.reduce(
      (sum, one) => sum + (one.weight / (stepShare || 1)) * (one.levelRpm - one.baselineRpm),
      0,
    ),
  };
}

function baselineInterval(cases: readonly WearCase[]): Interval {
  const mean = cases.reduce((sum, one) => sum + one.weight * one.baselineRpm, 0);
  const variance = cases.reduce(
    (sum, one) => sum + one.weight * (one.baselineSd ** 2 + (one.baselineRpm - mean) ** 2),
    0,
  );
  const reach = 1.96 * Math.sqrt(variance);
  return { estimate: mean, low: Math.max(0, mean - reach), high: mean + reach };
}

function interval(cases: readonly WearCase[], figure: (one: WearCase) => number): Interval | null {
  if (cases.length === 0) return null;
  const [low = 0, estimate = 0, high = 0] = weightedQuantiles(
    cases.map(figure),
    cases.map((one) => one.weight),
    [0.025, 0.5, 0.975],
  );
  return { estimate, low, high };
}
