import quantile from '@stdlib/stats-base-dists-normal-quantile';
import type { LivesGroup, LognormalFit, WeibullFit } from '#server/contract/lives.ts';

/** The distribution that makes a straight line on the paper. */
export type LifeFitKind = 'weibull' | 'lognormal';

/** Standard errors either way that hold a confidence. */
export const errorsOf = (confidence: number): number => quantile(0.5 + confidence / 2, 0, 1);

/** Place of a share failed on the upright axis: ln(-ln(1 - F)), or normal deviates. */
export const placeOfShare = (kind: LifeFitKind, failed: number): number =>
  kind === 'weibull' ? Math.log(-Math.log1p(-failed)) : quantile(failed, 0, 1);

export interface FittedUse {
  x: number;
  low: number;
  high: number;
}

/** Use by which a share has failed, with Wald bounds on its logarithm, as B10 and B50 have them. */
export function fittedUse(
  kind: LifeFitKind,
  { weibull, lognormal }: Pick<LivesGroup, LifeFitKind>,
  failed: number,
  errors: number,
): FittedUse | null {
  const found =
    kind === 'weibull'
      ? weibull && weibullLog(weibull, failed)
      : lognormal && lognormalLog(lognormal, failed, errors);
  if (!found) return null;
  const margin = errors * Math.sqrt(Math.max(0, found.variance));
  return { x: Math.exp(found.log), low: Math.exp(found.log - margin), high: Math.exp(found.log + margin) };
}

function weibullLog(fit: WeibullFit, failed: number) {
  const along = placeOfShare('weibull', failed) / fit.shape;
  return {
    log: Math.log(fit.scale) + along,
    variance:
      fit.se_log_scale ** 2 +
      along ** 2 * (fit.se_shape / fit.shape) ** 2 -
      2 * along * fit.cov_log_scale_log_shape,
  };
}

function lognormalLog(fit: LognormalFit, failed: number, errors: number) {
  const deviate = placeOfShare('lognormal', failed);
  const varianceAt = (z: number, covariance: number) =>
    fit.se_mu ** 2 + z ** 2 * fit.se_sigma ** 2 + 2 * z * covariance;
  // The covariance is told by how much wider B10 is than its parts.
  const tenth = placeOfShare('lognormal', 0.1);
  const seen = (Math.log(fit.b10.high / fit.b10.low) / (2 * errors)) ** 2;
  const covariance = (seen - varianceAt(tenth, 0)) / (2 * tenth);
  return { log: fit.mu + deviate * fit.sigma, variance: varianceAt(deviate, covariance) };
}

export interface PaperPoint {
  x: number;
  /** share failed, in the middle of the step of survival at x */
  failed: number;
}

/** A mark for each mileage with failures, in the middle of its step: neither end of it is seen more often. */
export function paperPoints({ kaplan_meier: points }: LivesGroup): PaperPoint[] {
  let before = 1;
  return points.flatMap(({ x, events, survival }) => {
    const failed = 1 - (before + survival) / 2;
    before = survival;
    return events > 0 && x > 0 && failed > 0 && failed < 1 ? [{ x, failed }] : [];
  });
}
