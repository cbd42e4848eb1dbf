import { runningMedian } from '#server/engine/smooth/running-median.ts';
import { fitWear } from './fit-wear.ts';
import { measureRaggedness } from './measure-raggedness.ts';
import { predictStray } from './predict-stray.ts';
import { defaultWearPrior, type SeenClutch, type WearCase, type WearPrior } from './wear-model.ts';

/** Clutches' worth (rise in rpm for raggedness) of the default prior by which what was seen is steadied. Own choice. */
const STEADY = { growths: 30, span: 6, onsets: 2, stray: 8, raggedRpm: 200 } as const;
const ROUNDS = 4;
/**
 * The usual span is taken shorter, by a factor of 1.8, than it was found: a distance told too long strands a vehicle,
 * one told too short costs an inspection. Own choice, by which forecasts of simulated clutches near their end are
 * held even.
 */
const LEAN = 0.6;
const LEAST_SPAN_SD = 0.4;
const STRAY_SD = { least: 0.2, most: 1 } as const;
/** One forecast that went wholly wrong must not widen all others. */
const MOST_STRAY = 2;
const LEAST_DRIFTING = 0.8;
const LEAST_RISE_RPM = 20;
const RAGGED_RPM = { least: 1, most: 40 } as const;
/** A clutch whose smoothed slip never stood this far above healthy tells nothing of how clutches wear. */
const RISEN_SIGMA = 2;
const SMOOTH_HALF = 3;

/**
 * What the clutches of a platform tell of how its clutches wear: how often, over how many kilometres, by what growth,
 * in what jumps, and how far the way ahead strays from what a smooth path foretold.
 *
 * Empirical Bayes by expectation and maximisation: the cases of each clutch ({@link fitWear}) are weighed under the
 * prior, then the prior is set to their mean, with some clutches' worth of the default one: share of a growth = (k
 * default + sum of weights) / (k + sum); mean and variance of log span, and onsets per km, likewise. Each growth is
 * so weighed by how well it told the series. Then the raggedness of all rises is pooled ({@link measureRaggedness}),
 * and each clutch that has worn far is taken back to half of its rise and forecast from there: the logarithm of way
 * gone over way foretold, less what the cases themselves disagreed, gives waySd ({@link predictStray}).
 *
 * @param clutches seen on the platform, points in order of km
 * @param limitRpm limit, rpm
 * @param prior    baseline of the platform, beside the default prior of wear
 * @returns prior of wear for this platform
 * Source: parametric empirical Bayes, Morris (1983), J. Amer. Statist. Assoc. 78, 47-55; expectation and maximisation,
 * Dempster, Laird and Rubin (1977), J. Roy. Statist. Soc. B 39, 1-38 (both from memory). Variant: clutches that never
 * stood 2 standard deviations above healthy count as not worn, and the cases are fitted once and weighed anew in each
 * round. Edges: none leave the prior as it came, but for the usual span, which leans to the near side. Errors: none.
 * @example learnWear([], 150, defaultWearPrior).waySd // 0.4
 */
export function learnWear(clutches: readonly SeenClutch[], limitRpm: number, prior: WearPrior): WearPrior {
  const seen = clutches.filter(({ points }) => points.length > 0);
  const risen = seen.filter((clutch) => hasRisen(clutch, prior));
  const calmKm = sumRanges(seen) - sumRanges(risen);
  const fitted = risen.map((clutch) => ({
    clutch,
    cases: fitWear(clutch.points, limitRpm, prior, clutch.independence, clutch.earliestKm),
  }));
  let learned = prior;
  for (let round = 0; round < ROUNDS; round++)
    learned = maximise(
      fitted.map(({ clutch, cases }) => ({
        clutch,
        cases: weighAnew(cases, rangeOf(clutch), prior, learned),
      })),
      calmKm,
      prior,
    );
  const raggedRpm = learnRaggedness(fitted, limitRpm);
  learned = { ...learned, logSpanMean: learned.logSpanMean - LEAN, raggedRpm };
  return { ...learned, waySd: learnStray(risen, limitRpm, learned) };
}

interface Fitted {
  clutch: SeenClutch;
  cases: readonly WearCase[];
}

const rangeOf = ({ points }: SeenClutch) => (points.at(-1)?.km ?? 0) - (points[0]?.km ?? 0);

const sumRanges = (clutches: readonly SeenClutch[]) => clutches.reduce((sum, one) => sum + rangeOf(one), 0);

function hasRisen({ points }: SeenClutch, { baselineRpm, baselineSd }: WearPrior): boolean {
  const smooth = runningMedian(
    points.map((point) => point.slipRpm),
    SMOOTH_HALF,
  );
  return smooth.some((slip) => slip > baselineRpm + RISEN_SIGMA * baselineSd);
}

/** The same cases under another prior: each weight times the ratio of the two priors of its case. */
function weighAnew(cases: readonly WearCase[], rangeKm: number, from: WearPrior, to: WearPrior): WearCase[] {
  const ratios = cases.map((one) => {
    if (one.kind === 'flat') return one.weight * Math.exp((from.onsetPerKm - to.onsetPerKm) * rangeKm);
    const onset = to.onsetPerKm / from.onsetPerKm;
    if (one.kind === 'step') return one.weight * onset;
    const shareIn = (prior: WearPrior) =>
      prior.growths.find(({ law, value }) => law === one.growth.law && value === one.growth.value)?.share ??
      0;
    const z = (prior: WearPrior) => (Math.log(one.spanKm) - prior.logSpanMean) / prior.logSpanSd;
    const span = (from.logSpanSd / to.logSpanSd) * Math.exp(0.5 * (z(from) ** 2 - z(to) ** 2));
    return one.weight * onset * span * (shareIn(to) / shareIn(from));
  });
  const total = ratios.reduce((a, b) => a + b, 0);
  return cases.map((one, i) => ({ ...one, weight: (ratios[i] ?? 0) / total }));
}

function maximise(fitted: readonly Fitted[], calmKm: number, prior: WearPrior): WearPrior {
  const usual = defaultWearPrior;
  const counts = usual.growths.map(({ share }) => STEADY.growths * share);
  let drifting = 0;
  let onsets: number = STEADY.onsets;
  let km = STEADY.onsets / usual.onsetPerKm + calmKm;
  let logs = STEADY.span * usual.logSpanMean;
  let squares = STEADY.span * (usual.logSpanSd ** 2 + usual.logSpanMean ** 2);
  for (const { clutch, cases } of fitted) {
    const [from, to] = [clutch.points[0]?.km ?? 0, clutch.points.at(-1)?.km ?? 0];
    for (const one of cases) {
      // Until its onset a clutch was at risk; what began before the first point was not seen to begin.
      km += one.weight * Math.max(0, Math.min(one.onsetKm, to) - from);
      if (one.kind !== 'drift') continue;
      if (one.onsetKm > from) onsets += one.weight;
      const growth = usual.growths.findIndex(
        ({ law, value }) => law === one.growth.law && value === one.growth.value,
      );
      counts[growth] = (counts[growth] ?? 0) + one.weight;
      drifting += one.weight;
      const logSpan = Math.log(one.spanKm);
      logs += one.weight * logSpan;
      squares += one.weight * logSpan ** 2;
    }
  }
  const logSpanMean = logs / (STEADY.span + drifting);
  const variance = squares / (STEADY.span + drifting) - logSpanMean ** 2;
  return {
    ...prior,
    logSpanMean,
    logSpanSd: Math.max(LEAST_SPAN_SD, Math.sqrt(Math.max(0, variance))),
    onsetPerKm: onsets / km,
    growths: usual.growths.map((growth, i) => ({
      ...growth,
      share: (counts[i] ?? 0) / (STEADY.growths + drifting),
    })),
  };
}

function learnRaggedness(fitted: readonly Fitted[], limitRpm: number): number {
  let squares = STEADY.raggedRpm * defaultWearPrior.raggedRpm;
  let riseRpm: number = STEADY.raggedRpm;
  for (const { clutch, cases } of fitted) {
    const drifting = cases.reduce((sum, one) => sum + (one.kind === 'drift' ? one.weight : 0), 0);
    const own = drifting < LEAST_DRIFTING ? null : measureRaggedness(cases, clutch.points, limitRpm);
    if (own === null || own.riseRpm < LEAST_RISE_RPM) continue;
    squares += own.squares;
    riseRpm += own.riseRpm;
  }
  return Math.min(RAGGED_RPM.most, Math.max(RAGGED_RPM.least, squares / riseRpm));
}

function learnStray(clutches: readonly SeenClutch[], limitRpm: number, prior: WearPrior): number {
  const strays = clutches.flatMap((clutch) => predictStray(clutch, limitRpm, prior) ?? []);
  const seen = strays.reduce(
    (sum, { logRatio, ownVariance }) => sum + Math.min(MOST_STRAY ** 2, logRatio ** 2) - ownVariance,
    0,
  );
  const variance = (STEADY.stray * defaultWearPrior.waySd ** 2 + seen) / (STEADY.stray + strays.length);
  return Math.min(STRAY_SD.most, Math.sqrt(Math.max(STRAY_SD.least ** 2, variance)));
}
