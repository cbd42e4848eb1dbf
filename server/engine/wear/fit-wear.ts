import type { WearCase, WearPoint, WearPrior } from './wear-model.ts';

const POWERS = [
  { power: 1, prior: 0.4 },
  { power: 1.7, prior: 0.35 },
  { power: 3, prior: 0.25 },
] as const;
const ONSETS = 60;
const SPANS = 48;
/** Unit of the way since onset, so that its powers stay near 1. */
const UNIT_KM = 10_000;
const SHORTEST_SPAN_KM = 1_200;
const LONGEST_SPAN_KM = 150_000;
/** How far before the first reading wear may have begun, km. */
const BEFORE_KM = 25_000;
/** Chance of a jump that stays against that of wear, and the usual size of such a jump, rpm. */
const STEP_SHARE = 0.15;
const STEP_SD_RPM = 40;
/** Cases with less than this share of the best one's weight are dropped. */
const NEGLIGIBLE = 1e-5;

/**
 * Posterior over the wear of one clutch: whether it drifts, from where, how fast, and whether it accelerates.
 *
 * Degradation path model slip = a + (limit - a) * ((km - onset)+ / span)^power + error with vehicle-specific
 * onset and span and priors shared by the platform (Lu and Meeker 1993, Technometrics 35, 161-174; Bayesian
 * updating of such paths: Gebraeel, Lawley, Li and Ryan 2005, IIE Transactions 37, 543-557). Onset, span and
 * power lie on a grid; given these, the healthy slip a is normal with a closed-form posterior. Beside it stand
 * no change, and a jump that stays. Errors that go together are allowed for by `independence`.
 *
 * log weight = independence * log likelihood (a integrated out) + log prior.
 *
 * @param points       stretches of one life in order of km; units in the names
 * @param limitRpm     slip at which the clutch counts as failed
 * @param prior        of the platform
 * @param independence share of independent information in the points, 0 to 1 (1 / variance inflation)
 * @param earliestKm   wear cannot have begun before this, km (where the converter was fitted)
 * @returns cases with weights that sum to 1
 * Edges: few points leave the prior. Errors: throws on no points.
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
  const n = points.length;
  const w = points.map((point) => independence / point.variance);
  const priorInfo = 1 / prior.baselineSd ** 2;
  const base = { w: sum(w), wy: 0, wyy: 0 };
  points.forEach(({ slipRpm }, i) => {
    base.wy += (w[i] ?? 0) * slipRpm;
    base.wyy += (w[i] ?? 0) * slipRpm * slipRpm;
  });
  /** Normal posterior of a, and log marginal likelihood, from information, target and sum of squares. */
  const integrate = (info: number, target: number, squares: number) => {
    const allInfo = info + priorInfo;
    const mean = (target + priorInfo * prior.baselineRpm) / allInfo;
    const left = squares + priorInfo * prior.baselineRpm ** 2 - mean * mean * allInfo;
    return { mean, sd: Math.sqrt(1 / allInfo), log: -0.5 * (left + Math.log(allInfo / priorInfo)) };
  };

  const cases: (WearCase & { log: number })[] = [];
  let best = Number.NEGATIVE_INFINITY;
  /** False for a case so unlikely that it need not even be written down. */
  const counts = (log: number) => {
    best = Math.max(best, log);
    return log - best > Math.log(NEGLIGIBLE);
  };
  const from = Math.max(Math.min(earliestKm, first.km), first.km - BEFORE_KM);
  const range = Math.max(1, last.km - from);
  const flat = integrate(base.w, base.wy, base.wyy);
  cases.push({
    kind: 'flat',
    power: 0,
    onsetKm: Number.POSITIVE_INFINITY,
    spanKm: Number.POSITIVE_INFINITY,
    baselineRpm: flat.mean,
    baselineSd: flat.sd,
    levelRpm: flat.mean,
    levelSd: flat.sd,
    weight: 0,
    log: flat.log - prior.onsetPerKm * range,
  });
  counts(flat.log - prior.onsetPerKm * range);
  const cell = range / ONSETS;
  const logCell = Math.log(prior.onsetPerKm * cell);
  const spans = spanGrid(prior);
  for (let o = 0; o < ONSETS; o++) {
    const onsetKm = from + (o + 0.5) * cell;
    for (const { power, prior: powerPrior } of POWERS) {
      // g = (km - onset)^power / span^power: its sums are had once, and scaled for each span.
      let g1 = 0;
      let g2 = 0;
      let gy = 0;
      for (let i = 0; i < n; i++) {
        const along = ((points[i]?.km ?? 0) - onsetKm) / UNIT_KM;
        if (along <= 0) continue;
        const g = power === 1 ? along : along ** power;
        const wg = (w[i] ?? 0) * g;
        g1 += wg;
        g2 += wg * g;
        gy += wg * (points[i]?.slipRpm ?? 0);
      }
      const gNow = Math.max(0, (last.km - onsetKm) / UNIT_KM) ** power;
      for (const { spanKm, logPrior } of spans) {
        const s = (UNIT_KM / spanKm) ** power;
        const fit = integrate(
          base.w - 2 * s * g1 + s * s * g2,
          base.wy - s * gy - limitRpm * (s * g1 - s * s * g2),
          base.wyy - 2 * s * limitRpm * gy + (s * limitRpm) ** 2 * g2,
        );
        const log = fit.log + logCell + Math.log(powerPrior) + logPrior;
        if (!counts(log)) continue;
        cases.push({
          kind: 'drift',
          power,
          onsetKm,
          spanKm,
          baselineRpm: fit.mean,
          baselineSd: fit.sd,
          levelRpm: fit.mean + (limitRpm - fit.mean) * s * gNow,
          levelSd: fit.sd * Math.abs(1 - s * gNow),
          weight: 0,
          log,
        });
      }
    }
    let w1 = 0;
    let wy1 = 0;
    for (let i = 0; i < n; i++) {
      if ((points[i]?.km ?? 0) <= onsetKm) continue;
      w1 += w[i] ?? 0;
      wy1 += (w[i] ?? 0) * (points[i]?.slipRpm ?? 0);
    }
    for (const { rpm, logPrior } of STEP_GRID) {
      const fit = integrate(base.w, base.wy - rpm * w1, base.wyy - 2 * rpm * wy1 + rpm * rpm * w1);
      const log = fit.log + logCell + Math.log(STEP_SHARE) + logPrior;
      if (!counts(log)) continue;
      cases.push({
        kind: 'step',
        power: 0,
        onsetKm,
        spanKm: Number.POSITIVE_INFINITY,
        baselineRpm: fit.mean,
        baselineSd: fit.sd,
        levelRpm: fit.mean + rpm,
        levelSd: fit.sd,
        weight: 0,
        log,
      });
    }
  }
  const kept = cases.filter((one) => one.log - best > Math.log(NEGLIGIBLE));
  const total = kept.reduce((sum, one) => sum + Math.exp(one.log - best), 0);
  return kept.map(({ log, ...one }) => ({ ...one, weight: Math.exp(log - best) / total }));
}

/** Prior of the size of a jump, falling beyond its usual size, on a coarse grid. */
const STEP_GRID = gridOfSteps();

function gridOfSteps(): { rpm: number; logPrior: number }[] {
  const sizes = [8, 11, 15, 20, 26, 33, 42, 53, 66, 82, 102, 127];
  const heights = sizes.map((rpm) => rpm * Math.exp(-0.5 * (rpm / STEP_SD_RPM) ** 2));
  const total = sum(heights);
  return sizes.map((rpm, i) => ({ rpm, logPrior: Math.log((heights[i] ?? 0) / total) }));
}

function spanGrid(prior: WearPrior): { spanKm: number; logPrior: number }[] {
  const step = Math.log(LONGEST_SPAN_KM / SHORTEST_SPAN_KM) / (SPANS - 1);
  const logs = Array.from({ length: SPANS }, (_, i) => Math.log(SHORTEST_SPAN_KM) + i * step);
  const heights = logs.map((log) => Math.exp(-0.5 * ((log - prior.logSpanMean) / prior.logSpanSd) ** 2));
  const total = sum(heights);
  return logs.map((log, i) => ({ spanKm: Math.exp(log), logPrior: Math.log((heights[i] ?? 0) / total) }));
}

function sum(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0);
}
