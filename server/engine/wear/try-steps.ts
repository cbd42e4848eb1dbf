import type { FoundCases } from './found-cases.ts';
import type { WearSums } from './sum-wear-points.ts';
import type { Growth } from './wear-model.ts';

/** Chance of a jump that stays against that of wear, and the usual size of such a jump, rpm. */
const STEP_SHARE = 0.15;
const STEP_SD_RPM = 40;
const NONE: Growth = { law: 'power', value: 1 };

/** Prior of the size of a jump, falling beyond its usual size, on a coarse grid. */
const STEP_GRID = gridOfSteps();

/**
 * Tries jumps that stay: writes down each case that is likely enough beside the best one.
 *
 * Slip a before the onset and a + size after it, a integrated out as in tryDrifts; 12 sizes from 8 to 127 rpm, their prior
 * size * exp(-(size / 40)^2 / 2).
 *
 * @param sums       of the points
 * @param onsets     from which km on, width of a cell, km, and how many
 * @param onsetPerKm chance per km that a healthy clutch begins to wear
 * @param enough     a case is likely enough by this logarithm beside that of the best
 * @param found      where cases go, and the best logarithm so far
 * @returns nothing; cases come in order of onset and size
 * Source: normal posterior of a linear model, any textbook; the prior is our own. Edges, errors: none.
 * @example trySteps(sums, { fromKm: 100_000, cellKm: 500, count: 48 }, 1 / 150_000, -11.5, found)
 */
export function trySteps(
  sums: WearSums,
  { fromKm, cellKm, count }: { fromKm: number; cellKm: number; count: number },
  onsetPerKm: number,
  enough: number,
  found: FoundCases,
): void {
  const { n, kms, slips, w, priorInfo, priorTarget, priorSquares } = sums;
  const allInfo = sums.info + priorInfo;
  const sd = Math.sqrt(1 / allInfo);
  const logInfo = Math.log(allInfo / priorInfo);
  const logCell = Math.log(onsetPerKm * cellKm * STEP_SHARE);
  let since = 0;
  for (let o = 0; o < count; o++) {
    const onsetKm = fromKm + (o + 0.5) * cellKm;
    while (since < n && (kms[since] ?? 0) <= onsetKm) since++;
    let w1 = 0;
    let wy1 = 0;
    for (let i = since; i < n; i++) {
      w1 += w[i] ?? 0;
      wy1 += (w[i] ?? 0) * (slips[i] ?? 0);
    }
    for (const { rpm, logPrior } of STEP_GRID) {
      const squares = sums.squares - 2 * rpm * wy1 + rpm * rpm * w1;
      const mean = (sums.target - rpm * w1 + priorTarget) / allInfo;
      const left = squares + priorSquares - mean * mean * allInfo;
      const log = -0.5 * (left + logInfo) + logCell + logPrior;
      if (log > found.best) found.best = log;
      if (log - found.best <= enough) continue;
      found.cases.push({
        kind: 'step',
        growth: NONE,
        onsetKm,
        spanKm: Number.POSITIVE_INFINITY,
        baselineRpm: mean,
        baselineSd: sd,
        levelRpm: mean + rpm,
        levelSd: sd,
        weight: 0,
        log,
      });
    }
  }
}

function gridOfSteps(): { rpm: number; logPrior: number }[] {
  const sizes = [8, 11, 15, 20, 26, 33, 42, 53, 66, 82, 102, 127];
  const heights = sizes.map((rpm) => rpm * Math.exp(-0.5 * (rpm / STEP_SD_RPM) ** 2));
  const total = heights.reduce((sum, height) => sum + height, 0);
  return sizes.map((rpm, i) => ({ rpm, logPrior: Math.log((heights[i] ?? 0) / total) }));
}
