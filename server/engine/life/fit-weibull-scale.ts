import { type Declined, decline } from '#server/engine/declined.ts';
import type { ObservedLife, WeibullSpread } from './life-model.ts';
import { requireLives } from './require-lives.ts';
import { sumWeibullPowers, takeLogsOfLives } from './sum-weibull-powers.ts';

export interface WeibullScale extends WeibullSpread {
  seLogScale: number;
  loglik: number;
  /** failures, lives counted by their count */
  events: number;
}

/**
 * Maximum likelihood: scale of Weibull lives of a known shape, with right censoring and late entry.
 *
 * scale^shape = sum count (exit^shape - entry^shape) / failures; se(log scale) = 1 / (shape sqrt(failures)).
 *
 * @param lives in any order
 * @param shape above 0, as known from elsewhere
 * @returns scale in the unit of exit, se of its logarithm, log likelihood in that unit; declined without failures
 * Source: Nelson (1982), Applied Life Data Analysis, chapter 8 (exponential after the power transform; from memory).
 * Variant: the shape counts as known, so varLogShape and covLogs are 0. Edges: one failure is enough.
 * Errors: as {@link requireLives}; throws on a shape that is not above 0.
 * @example fitWeibullScale([{ entry: 0, exit: 3, event: true, count: 1 }, { entry: 0, exit: 4, event: false, count: 1 }], 2) // scale 5
 */
export function fitWeibullScale(lives: readonly ObservedLife[], shape: number): WeibullScale | Declined {
  if (!(shape > 0 && shape < Number.POSITIVE_INFINITY))
    throw new Error('fitWeibullScale requires a shape above 0');
  const { n, events } = requireLives('fitWeibullScale', lives);
  if (events === 0) return decline('no failures', 'at least 1 failure', `${n} lives, none failed`);
  const columns = takeLogsOfLives(lives);
  const { largest, meanLogFailure } = columns;
  const logScale = Math.log(sumWeibullPowers(columns, shape).a / events) / shape;
  const scale = largest * Math.exp(logScale);
  const loglik =
    events * (Math.log(shape) + (shape - 1) * meanLogFailure - shape * logScale - Math.log(largest) - 1);
  if (!(Number.isFinite(scale) && scale > 0 && Number.isFinite(loglik)))
    return decline(
      'the scale lies beyond all numbers',
      'a shape nearer to 1, or more failures',
      `shape ${shape}, ${events} failures`,
    );
  const seLogScale = 1 / (shape * Math.sqrt(events));
  return {
    shape,
    scale,
    varLogScale: seLogScale ** 2,
    varLogShape: 0,
    covLogs: 0,
    seLogScale,
    loglik,
    events,
  };
}
