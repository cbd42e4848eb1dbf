import type { Growth, WearCase, WearPoint, WearPrior } from './wear-model.ts';

/** Cells of the grid, first over the whole range and then again over the part that counts. */
const COARSE = { onsets: 48, spans: 40 } as const;
const FINE = { onsets: 40, spans: 32 } as const;
/** Unit of the way since onset, so that its powers stay near 1. */
const UNIT_KM = 10_000;
const SHORTEST_SPAN_KM = 1_200;
const LONGEST_SPAN_KM = 150_000;
/** How far before the first reading wear may have begun, km. */
const BEFORE_KM = 25_000;
/** Chance of a jump that stays against that of wear, and the usual size of such a jump, rpm. */
const STEP_SHARE = 0.15;
const STEP_SD_RPM = 40;
/** Feedback of fewer foldings is hardly told from even wear, of more from a jump. */
const LEAST_FOLDS = 1;
const MOST_FOLDS = 7;
const NONE: Growth = { law: 'power', value: 1 };
/** No clutch slips by this many limits, and the sums of a case that says so would drown in rounding. */
const MOST_LIMITS = 20;
/** Cases with less than this share of the best one's weight are dropped. */
const NEGLIGIBLE = 1e-5;
const LOG_NEGLIGIBLE = Math.log(NEGLIGIBLE);
/** More than rounding can add to a logarithm. */
const ROUNDING = 1e-6;
/** On the coarse grid the best case may lie between cells: more is kept. */
const COARSE_NEGLIGIBLE = 1e-3;

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
  const n = points.length;
  const w = Float64Array.from(points, (point) => independence / point.variance);
  const kms = Float64Array.from(points, (point) => point.km);
  const slips = Float64Array.from(points, (point) => point.slipRpm);
  const grown = new Float64Array(n);
  const priorInfo = 1 / prior.baselineSd ** 2;
  const priorTarget = priorInfo * prior.baselineRpm;
  const priorSquares = priorInfo * prior.baselineRpm ** 2;
  const base = { w: sum(w), wy: 0, wyy: 0 };
  points.forEach(({ slipRpm }, i) => {
    base.wy += (w[i] ?? 0) * slipRpm;
    base.wyy += (w[i] ?? 0) * slipRpm * slipRpm;
  });
  /** Normal posterior of a, and log marginal likelihood, from information, target and sum of squares. */
  const integrate = (info: number, target: number, squares: number) => {
    const allInfo = info + priorInfo;
    const mean = (target + priorTarget) / allInfo;
    const left = squares + priorSquares - mean * mean * allInfo;
    return { mean, sd: Math.sqrt(1 / allInfo), log: -0.5 * (left + Math.log(allInfo / priorInfo)) };
  };

  const cases: (WearCase & { log: number })[] = [];
  let best = Number.NEGATIVE_INFINITY;
  /** False for a case so unlikely that it need not even be written down. */
  const counts = (log: number) => {
    if (log > best) best = log;
    return log - best > LOG_NEGLIGIBLE;
  };
  const from = Math.max(Math.min(earliestKm, first.km), first.km - BEFORE_KM);
  const range = Math.max(1, last.km - from);
  const flat = integrate(base.w, base.wy, base.wyy);
  cases.push({
    kind: 'flat',
    growth: NONE,
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
  const addDrift = (area: Area, { onsets, spans }: { onsets: number; spans: number }) => {
    const cell = (area.onsetKm[1] - area.onsetKm[0]) / onsets;
    const step = (area.logSpan[1] - area.logSpan[0]) / spans;
    const logCell = Math.log(prior.onsetPerKm * cell * step);
    const ways = prior.growths.map((growth) => ({
      ...growth,
      logShare: Math.log(growth.share),
      scales: scaleSpans(growth, area, spans),
    }));
    const densities = Float64Array.from(ways[0]?.scales.logSpan ?? [], (logSpan) =>
      logSpanDensity(logSpan, prior),
    );
    const { w: baseW, wy: baseWy, wyy: baseWyy } = base;
    for (let o = 0; o < onsets; o++) {
      const onsetKm = area.onsetKm[0] + (o + 0.5) * cell;
      // Points are in order of km: those before the onset add nothing.
      let since = 0;
      while (since < n && ((kms[since] ?? 0) - onsetKm) / UNIT_KM <= 0) since++;
      for (const { law, value, logShare, scales } of ways) {
        const growth = growthOf(law, value);
        // g of the way gone: its sums are had once, and scaled by s = 1 / g(span) for each span.
        raiseAll(law, value, kms, onsetKm, since, grown);
        let g1 = 0;
        let g2 = 0;
        let gy = 0;
        for (let i = since; i < n; i++) {
          const g = grown[i] ?? 0;
          const wg = (w[i] ?? 0) * g;
          g1 += wg;
          g2 += wg * g;
          gy += wg * (slips[i] ?? 0);
        }
        const goneKm = Math.max(0, last.km - onsetKm);
        const gNow = law === 'feedback' ? Math.expm1(goneKm / value) : (goneKm / UNIT_KM) ** value;
        const ss = scales.s;
        for (let k = 0; k < spans; k++) {
          const s = ss[k] ?? Number.NaN;
          if (!(s * gNow <= MOST_LIMITS)) continue;
          // As integrate() does, written out: most cases end here, and this runs for each cell of the grid.
          const info = baseW - 2 * s * g1 + s * s * g2;
          const target = baseWy - s * gy - limitRpm * (s * g1 - s * s * g2);
          const sLimit = s * limitRpm;
          const squares = baseWyy - 2 * s * limitRpm * gy + sLimit * sLimit * g2;
          const allInfo = info + priorInfo;
          const mean = (target + priorTarget) / allInfo;
          const left = squares + priorSquares - mean * mean * allInfo;
          // The logarithm, 0 at the least, can only take from this: most cases need none.
          const atMost = -0.5 * left + logCell + logShare + (densities[k] ?? 0);
          if (atMost - best <= LOG_NEGLIGIBLE - ROUNDING) continue;
          const log =
            -0.5 * (left + Math.log(allInfo / priorInfo)) + logCell + logShare + (densities[k] ?? 0);
          if (!counts(log)) continue;
          const sd = Math.sqrt(1 / allInfo);
          cases.push({
            kind: 'drift',
            growth,
            onsetKm,
            spanKm: scales.spanKm[k] ?? 0,
            baselineRpm: mean,
            baselineSd: sd,
            levelRpm: mean + (limitRpm - mean) * s * gNow,
            levelSd: sd * Math.abs(1 - s * gNow),
            weight: 0,
            log,
          });
        }
      }
    }
  };
  const addSteps = () => {
    const cell = range / COARSE.onsets;
    for (let o = 0; o < COARSE.onsets; o++) {
      const onsetKm = from + (o + 0.5) * cell;
      let w1 = 0;
      let wy1 = 0;
      for (let i = 0; i < n; i++) {
        if ((points[i]?.km ?? 0) <= onsetKm) continue;
        w1 += w[i] ?? 0;
        wy1 += (w[i] ?? 0) * (points[i]?.slipRpm ?? 0);
      }
      for (const { rpm, logPrior } of STEP_GRID) {
        const fit = integrate(base.w, base.wy - rpm * w1, base.wyy - 2 * rpm * wy1 + rpm * rpm * w1);
        const log = fit.log + Math.log(prior.onsetPerKm * cell * STEP_SHARE) + logPrior;
        if (!counts(log)) continue;
        cases.push({
          kind: 'step',
          growth: NONE,
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
  };
  const whole: Area = {
    onsetKm: [from, last.km],
    logSpan: [Math.log(SHORTEST_SPAN_KM), Math.log(LONGEST_SPAN_KM)],
  };
  addSteps();
  const others = cases.length;
  addDrift(whole, COARSE);
  const part = narrow(
    whole,
    cases.slice(others).filter((one) => one.log - best > Math.log(COARSE_NEGLIGIBLE)),
  );
  if (part !== null) {
    cases.length = others;
    addDrift(part, FINE);
    best = cases.reduce((high, one) => Math.max(high, one.log), Number.NEGATIVE_INFINITY);
  }
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

/** For each span of a grid 1 / g(span); not a number for a span that this growth does not have. */
function scaleSpans({ law, value }: Growth, area: Area, spans: number) {
  const step = (area.logSpan[1] - area.logSpan[0]) / spans;
  const logSpan = Array.from({ length: spans }, (_, k) => area.logSpan[0] + (k + 0.5) * step);
  const spanKm = logSpan.map((one) => Math.exp(one));
  const s = Float64Array.from(spanKm, (km) => {
    if (law !== 'feedback') return (UNIT_KM / km) ** value;
    return km < LEAST_FOLDS * value || km > MOST_FOLDS * value ? Number.NaN : 1 / Math.expm1(km / value);
  });
  return { logSpan, spanKm, s };
}

/** Growth without its share: one object for all spans of an onset. */
function growthOf(law: Growth['law'], value: number): Growth {
  return { law, value };
}

/** g of the way from the onset to each point; whole powers by multiplication, which is several times faster. */
function raiseAll(
  law: Growth['law'],
  value: number,
  kms: Float64Array,
  onsetKm: number,
  since: number,
  grown: Float64Array,
): void {
  for (let i = since; i < kms.length; i++) grown[i] = ((kms[i] ?? 0) - onsetKm) / UNIT_KM;
  if (law === 'feedback')
    for (let i = since; i < kms.length; i++) grown[i] = Math.expm1(((grown[i] ?? 0) * UNIT_KM) / value);
  else if (value === 3 || value === 6)
    for (let i = since; i < kms.length; i++) {
      const along = grown[i] ?? 0;
      const cube = along * along * along;
      grown[i] = value === 3 ? cube : cube * cube;
    }
  else if (value !== 1) for (let i = since; i < kms.length; i++) grown[i] = (grown[i] ?? 0) ** value;
}

/** Prior of the size of a jump, falling beyond its usual size, on a coarse grid. */
const STEP_GRID = gridOfSteps();

function gridOfSteps(): { rpm: number; logPrior: number }[] {
  const sizes = [8, 11, 15, 20, 26, 33, 42, 53, 66, 82, 102, 127];
  const heights = sizes.map((rpm) => rpm * Math.exp(-0.5 * (rpm / STEP_SD_RPM) ** 2));
  const total = sum(heights);
  return sizes.map((rpm, i) => ({ rpm, logPrior: Math.log((heights[i] ?? 0) / total) }));
}

interface Area {
  onsetKm: [low: number, high: number];
  logSpan: [low: number, high: number];
}

/** The part of a coarse grid in which cases count, one cell wider on each side; null where none does. */
function narrow(whole: Area, counting: readonly WearCase[]): Area | null {
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

function logSpanDensity(logSpan: number, prior: WearPrior): number {
  const z = (logSpan - prior.logSpanMean) / prior.logSpanSd;
  return -0.5 * z * z - Math.log(prior.logSpanSd * Math.sqrt(2 * Math.PI));
}

function sum(values: readonly number[] | Float64Array): number {
  let total = 0;
  for (const value of values) total += value;
  return total;
}
