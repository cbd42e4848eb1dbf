import { boundDriftRows } from './bound-drift-rows.ts';
import { estimateDriftSums } from './estimate-drift-sums.ts';
import type { FoundCases } from './found-cases.ts';
import { type DriftArea, layDriftGrid } from './lay-drift-grid.ts';
import { sumWearPoints, type WearSums } from './sum-wear-points.ts';
import { tryDrifts } from './try-drifts.ts';
import { trySteps } from './try-steps.ts';
import type { WearCase, WearPoint, WearPrior } from './wear-model.ts';

/** Cells of the grid, first over the whole range and then again over the part that counts. */
const COARSE = { onsets: 48, spans: 40 } as const;
const FINE = { onsets: 40, spans: 32 } as const;
const SHORTEST_SPAN_KM = 1_200;
const LONGEST_SPAN_KM = 150_000;
/** How far before the first reading wear may have begun, km. */
const BEFORE_KM = 25_000;
/** Cases with less than this share of the best one's weight are dropped. */
const LOG_NEGLIGIBLE = Math.log(1e-5);
/** On the coarse grid the best case may lie between cells: more is kept. */
const LOG_COARSE = Math.log(1e-3);

/**
 * Posterior over the wear of one clutch: whether it drifts, from where, how fast, and whether it accelerates.
 *
 * Degradation path model slip = a + (limit - a) * g(gone) / g(span) + error, gone = (km - onset)+, with
 * vehicle-specific onset and span and priors shared by the platform. By {@link Growth}, g(x) = x^p for a power p, or
 * exp(x / t) - 1 for feedback of e-folding length t. Power 1 is even wear; 6 stands for one that shows little until
 * pressure no longer holds the torque, and then all at once; feedback is slip whose heat brings more slip. Onset,
 * span and the prior's growths lie on a grid; given these, the healthy slip a is normal with a closed-form posterior.
 * Beside it stand no change, and a jump that stays. Errors that go together are allowed for by `independence`.
 *
 * log weight = independence * log likelihood (a integrated out) + log prior.
 *
 * @param points       stretches of one life in order of km; units in the names
 * @param limitRpm     slip at which the clutch counts as failed
 * @param prior        of the platform
 * @param independence share of independent information in the points, 0 to 1 (1 / variance inflation)
 * @param earliestKm   wear cannot have begun before this, km (where the converter was fitted)
 * @returns cases with weights that sum to 1
 * Source: Lu and Meeker (1993), Technometrics 35, 161-174; Bayesian updating of such paths: Gebraeel, Lawley, Li
 * and Ryan (2005), IIE Transactions 37, 543-557 (both from memory).
 * Edges: few points leave the prior; feedback is had over 1 to 7 foldings only, span / t, and a case that would stand
 * beyond 20 limits not at all: the prior of these is not given to others. Errors: throws on no points.
 * @example fitWear(flatPoints, 150, defaultWearPrior, 1, 0).find((c) => c.kind === 'flat')?.weight // near 1
 */
export function fitWear(
  points: readonly WearPoint[],
  limitRpm: number,
  prior: WearPrior,
  independence: number,
  earliestKm: number,
): WearCase[] {
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined) throw new Error('fitWear requires at least one point');
  const sums = sumWearPoints(points, prior, independence);
  const from = Math.max(Math.min(earliestKm, first.km), first.km - BEFORE_KM);
  const range = Math.max(1, last.km - from);
  const found = { cases: [makeFlat(sums, prior.onsetPerKm * range)], best: Number.NEGATIVE_INFINITY };
  found.best = found.cases[0]?.log ?? found.best;
  const steps = { fromKm: from, cellKm: range / COARSE.onsets, count: COARSE.onsets };
  trySteps(sums, steps, prior.onsetPerKm, LOG_NEGLIGIBLE, found);

  const others = found.cases.length;
  const whole: DriftArea = {
    onsetKm: [from, last.km],
    logSpan: [Math.log(SHORTEST_SPAN_KM), Math.log(LONGEST_SPAN_KM)],
  };
  lookFor(whole, COARSE, { sums, limitRpm, prior, found });
  const part = narrow(
    whole,
    found.cases.slice(others).filter((one) => one.log - found.best > LOG_COARSE),
  );
  if (part !== null) {
    found.cases.length = others;
    lookFor(part, FINE, { sums, limitRpm, prior, found });
    found.best = found.cases.reduce((high, one) => Math.max(high, one.log), Number.NEGATIVE_INFINITY);
  }
  return weigh(found);
}

/** Tries the drifts of an area, on so many cells. */
function lookFor(
  area: DriftArea,
  { onsets, spans }: { onsets: number; spans: number },
  { sums, limitRpm, prior, found }: { sums: WearSums; limitRpm: number; prior: WearPrior; found: FoundCases },
): void {
  const grid = layDriftGrid(area, onsets, spans, prior);
  // Nine rows in ten hold no case that counts: estimates show which, and cost a fraction.
  const estimates = estimateDriftSums(sums, grid);
  const bounds = boundDriftRows(sums, grid, estimates, limitRpm, found.best + LOG_NEGLIGIBLE);
  tryDrifts(sums, grid, bounds, limitRpm, LOG_NEGLIGIBLE, found);
}

/** No change: a alone, from the points and the prior. */
function makeFlat(sums: WearSums, cost: number): FoundCases['cases'][number] {
  const { info, target, squares, priorInfo, priorTarget, priorSquares } = sums;
  const allInfo = info + priorInfo;
  const mean = (target + priorTarget) / allInfo;
  const left = squares + priorSquares - mean * mean * allInfo;
  const sd = Math.sqrt(1 / allInfo);
  return {
    kind: 'flat',
    growth: { law: 'power', value: 1 },
    onsetKm: Number.POSITIVE_INFINITY,
    spanKm: Number.POSITIVE_INFINITY,
    baselineRpm: mean,
    baselineSd: sd,
    levelRpm: mean,
    levelSd: sd,
    weight: 0,
    log: -0.5 * (left + Math.log(allInfo / priorInfo)) - cost,
  };
}

/** The cases that count, by their share. */
function weigh({ cases, best }: FoundCases): WearCase[] {
  const kept = cases.filter((one) => one.log - best > LOG_NEGLIGIBLE);
  const total = kept.reduce((sum, one) => sum + Math.exp(one.log - best), 0);
  // Field by field: taking an object apart takes as long as all that went before.
  return kept.map((one) => ({
    kind: one.kind,
    growth: one.growth,
    onsetKm: one.onsetKm,
    spanKm: one.spanKm,
    baselineRpm: one.baselineRpm,
    baselineSd: one.baselineSd,
    levelRpm: one.levelRpm,
    levelSd: one.levelSd,
    weight: Math.exp(one.log - best) / total,
  }));
}

/** The part of a coarse grid in which cases count, one cell wider on each side; null where none does. */
function narrow(whole: DriftArea, counting: readonly WearCase[]): DriftArea | null {
  if (counting.length === 0) return null;
  const cell = (whole.onsetKm[1] - whole.onsetKm[0]) / COARSE.onsets;
  const step = (whole.logSpan[1] - whole.logSpan[0]) / COARSE.spans;
  const onsets = counting.map((one) => one.onsetKm);
  const spans = counting.map((one) => Math.log(one.spanKm));
  return {
    onsetKm: [
      Math.max(whole.onsetKm[0], Math.min(...onsets) - 1.5 * cell),
      Math.min(whole.onsetKm[1], Math.max(...onsets) + 1.5 * cell),
    ],
    logSpan: [
      Math.max(whole.logSpan[0], Math.min(...spans) - 1.5 * step),
      Math.min(whole.logSpan[1], Math.max(...spans) + 1.5 * step),
    ],
  };
}
