import { inverse, Matrix } from 'ml-matrix';
import { type Declined, decline } from '#server/engine/declined.ts';
import { normalQuantile } from '#server/engine/distributions/normal-quantile.ts';
import { climbLikelihood, type Height } from './climb-likelihood.ts';
import type { BoundedLife, ObservedLife } from './life-model.ts';
import { normalWidth } from './normal-width.ts';
import { refuseFewFailures } from './refuse-few-failures.ts';
import { requireLives } from './require-lives.ts';
import { surviveNormal } from './survive-normal.ts';

export interface LogNormalLife {
  /** mean and standard deviation of log life */
  mu: number;
  sigma: number;
  seMu: number;
  seSigma: number;
  covMuSigma: number;
  loglik: number;
  sigmaLow: number;
  sigmaHigh: number;
  b10: BoundedLife;
  b50: BoundedLife;
  events: number;
}

const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI);
const MOST_STEPS = 100;
/** A spread over e^50 is none of lives: it is had where the likelihood rises for ever. */
const LARGEST_SIGMA = 50;

/**
 * Maximum likelihood: lognormal lives with right censoring and late entry.
 *
 * z = (log t - mu) / sigma; log L = sum over failures of log phi(z) - log sigma - log t, plus sum over the rest of
 * log Phi(-z), less sum over late entries of log Phi(-z(entry)). Newton's method in (mu, log sigma); standard errors
 * from the observed information there; log t_p = mu + sigma Phi^-1(p), bounds of sigma and t_p Wald's on the log scale.
 *
 * @param lives      in any order
 * @param confidence of all bounds, above 0, below 1
 * @returns mu, sigma, B10 and B50 life with standard errors and bounds, log likelihood in the unit of exit; declined with fewer
 * than 2 failures at different mileages, and where no maximum is found at a sigma up to 50
 * Source: Meeker and Escobar (1998), Statistical Methods for Reliability Data, sections 8.3, 8.4 and 11.6 (late entry; from memory).
 * Edges: late entries can leave it without a maximum, with failures soon after entry. Errors: as {@link requireLives}; throws
 * on a confidence outside 0 to 1.
 * @example fitLogNormal([{ entry: 0, exit: 1, event: true, count: 1 }, { entry: 0, exit: Math.E, event: true, count: 1 }], 0.95) // mu 0.5, sigma 0.5
 */
export function fitLogNormal(lives: readonly ObservedLife[], confidence: number): LogNormalLife | Declined {
  const { n, events } = requireLives('fitLogNormal', lives);
  const few = refuseFewFailures(lives);
  if (few !== null) return few;
  const columns = takeColumns(lives, events);
  const { spread } = columns;
  // Where failures are a share p of the lives, their middle stands near the quantile p / 2.
  const start = [-normalQuantile(events / n / 2), 0];
  const { at, value, information, hasSettled } = climbLikelihood(
    start,
    ([mu = 0, logSigma = 0]) => evaluate(columns, mu, logSigma),
    MOST_STEPS,
  );
  const [mu = 0, logSigma = 0] = at;
  const sigma = spread * Math.exp(logSigma);
  if (!hasSettled || sigma > LARGEST_SIGMA)
    return decline(
      'the fit has no maximum',
      'failures spread over the mileage that was watched, or lives watched from 0 on',
      `${events} failures among ${n} lives`,
    );
  const covariance = inverse(information);
  const fit = describeFit(
    {
      mu: columns.centre + spread * mu,
      sigma,
      varMu: spread * spread * covariance.get(0, 0),
      varLogSigma: covariance.get(1, 1),
      covMuLogSigma: spread * covariance.get(0, 1),
    },
    confidence,
  );
  const loglik = value - events * (Math.log(spread) + columns.centre);
  const numbers = [...Object.values(fit), ...Object.values(fit.b10), ...Object.values(fit.b50), loglik];
  if (numbers.some((one) => typeof one === 'number' && !Number.isFinite(one)))
    return decline('so uncertain that bounds lie beyond all numbers', 'more failures', `${events} failures`);
  return { ...fit, loglik, events };
}

/** Log exits and entries from the middle of the failures, in their standard deviations: all parameters are of size 1. */
function takeColumns(lives: readonly ObservedLife[], events: number) {
  const logs = lives.map(({ exit }) => Math.log(exit));
  const overFailures = (term: (log: number) => number) =>
    lives.reduce((sum, { event, count }, i) => (event ? sum + count * term(logs[i] ?? 0) : sum), 0) / events;
  const centre = overFailures((log) => log);
  const spread = Math.sqrt(overFailures((log) => (log - centre) ** 2));
  const exit = Float64Array.from(logs, (log) => (log - centre) / spread);
  const entry = Float64Array.from(lives, (life) => (Math.log(life.entry) - centre) / spread);
  return { lives, centre, spread, exit, entry };
}

function evaluate(
  { lives, exit, entry }: ReturnType<typeof takeColumns>,
  mu: number,
  logSigma: number,
): Height {
  const sigma = Math.exp(logSigma);
  const sums = { value: 0, mu: 0, sigma: 0, muMu: 0, muSigma: 0, sigmaSigma: 0 };
  const addSurvival = (z: number, weight: number) => {
    const { logSurvival, hazard, slope } = surviveNormal(z);
    sums.value += weight * logSurvival;
    sums.mu += (weight * hazard) / sigma;
    sums.sigma += weight * z * hazard;
    sums.muMu += (weight * slope) / sigma / sigma;
    sums.muSigma += (weight * (z * slope + hazard)) / sigma;
    sums.sigmaSigma += weight * z * (hazard + z * slope);
  };
  for (const [i, { event, count, entry: from }] of lives.entries()) {
    const z = ((exit[i] ?? 0) - mu) / sigma;
    if (event) {
      sums.value += count * (-0.5 * z * z - HALF_LOG_TWO_PI - logSigma);
      sums.mu += (count * z) / sigma;
      sums.sigma += count * (z * z - 1);
      sums.muMu += count / sigma / sigma;
      sums.muSigma += (2 * count * z) / sigma;
      sums.sigmaSigma += 2 * count * z * z;
    } else addSurvival(z, count);
    if (from > 0) addSurvival(((entry[i] ?? 0) - mu) / sigma, -count);
  }
  return {
    value: sums.value,
    gradient: [sums.mu, sums.sigma],
    information: new Matrix([
      [sums.muMu, sums.muSigma],
      [sums.muSigma, sums.sigmaSigma],
    ]),
  };
}

function describeFit(
  fit: Record<'mu' | 'sigma' | 'varMu' | 'varLogSigma' | 'covMuLogSigma', number>,
  confidence: number,
) {
  const { mu, sigma, varMu, varLogSigma, covMuLogSigma } = fit;
  const z = normalWidth(confidence);
  const width = z * Math.sqrt(varLogSigma);
  const quantile = (share: number): BoundedLife => {
    const step = sigma * normalQuantile(share);
    const variance = varMu + step * step * varLogSigma + 2 * step * covMuLogSigma;
    const off = z * Math.sqrt(Math.max(0, variance));
    return {
      estimate: Math.exp(mu + step),
      low: Math.exp(mu + step - off),
      high: Math.exp(mu + step + off),
    };
  };
  return {
    mu,
    sigma,
    seMu: Math.sqrt(varMu),
    seSigma: sigma * Math.sqrt(varLogSigma),
    covMuSigma: sigma * covMuLogSigma,
    sigmaLow: sigma * Math.exp(-width),
    sigmaHigh: sigma * Math.exp(width),
    b10: quantile(0.1),
    b50: quantile(0.5),
  };
}
