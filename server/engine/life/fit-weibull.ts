import { type Declined, decline } from '#server/engine/declined.ts';
import type { ObservedLife, WeibullLife } from './life-model.ts';
import { normalWidth } from './normal-width.ts';
import { quantileOfWeibull } from './quantile-of-weibull.ts';
import { refuseFewFailures } from './refuse-few-failures.ts';
import { requireLives } from './require-lives.ts';
import { type LogLives, sumWeibullPowers, takeLogsOfLives } from './sum-weibull-powers.ts';

const LEAST_SHAPE = 1e-3;
const LARGEST_SHAPE = 1e5;
const MOST_STEPS = 100;
/** The shape is had to so many parts of itself. */
const CLOSE = 1e-11;

/**
 * Maximum likelihood: Weibull lives with right censoring and late entry.
 *
 * log L = sum over failures log h(exit) - sum over lives (H(exit) - H(entry)), H(t) = (t / scale)^shape, h = H'. The scale
 * is solved for, scale^shape = A / r, A = sum count (exit^shape - entry^shape), r failures; what is left is concave in
 * the shape, as the logarithm of A / shape is that of a Laplace transform, so its one maximum is where
 * A' / A - 1 / shape = mean log exit of the failures. Standard errors from the observed information of (log scale, log shape):
 * var(log shape) = 1 / (r (1 + shape^2 v)), v = A'' / A - (A' / A)^2; cov = a var(log shape), a = A' / A - log scale;
 * var(log scale) = 1 / (shape^2 r) + a^2 var(log shape). Bounds are Wald's on the log scale.
 *
 * @param lives      in any order
 * @param confidence of all bounds, above 0, below 1
 * @returns shape, scale, B10 and B50 life with standard errors and bounds, log likelihood in the unit of exit; declined
 * with fewer than 2 failures at different mileages, and where there is no maximum: lives that all entered late and failed
 * soon after (shape would go to 0), failures closer together than numbers tell apart
 * Source: Meeker and Escobar (1998), Statistical Methods for Reliability Data, sections 8.3, 8.4 and 11.6 (late entry);
 * Nelson (1982), Applied Life Data Analysis, chapter 8; both from memory. Variant: B10 and B50 are unconditional.
 * Edges: shapes from 0.001 to 100,000 are looked at. Errors: as {@link requireLives}; throws on a confidence outside 0 to 1.
 * @example fitWeibull([{ entry: 0, exit: 1, event: true, count: 1 }, { entry: 0, exit: 2, event: true, count: 1 }], 0.95) // shape 3.46, scale 1.68
 */
export function fitWeibull(lives: readonly ObservedLife[], confidence: number): WeibullLife | Declined {
  requireLives('fitWeibull', lives);
  const few = refuseFewFailures(lives);
  if (few !== null) return few;
  const columns = takeLogsOfLives(lives);
  const shape = solveShape(columns);
  return typeof shape === 'number' ? describeFit(columns, shape, confidence) : shape;
}

function solveShape(columns: LogLives): number | Declined {
  const { events, meanLogFailure, sdLogFailure, isLate } = columns;
  /** Grows with the shape through its one root; and its derivative by log shape. */
  const score = (shape: number) => {
    const { mean, variance } = sumWeibullPowers(columns, shape);
    const off = mean - meanLogFailure;
    return { value: shape * off - 1, slope: shape * (off + shape * variance) };
  };
  if (isLate && score(LEAST_SHAPE).value > 0)
    return decline(
      'failures come so soon after entry that the fit has no maximum',
      'failures spread over the mileage that was watched, or lives watched from 0 on',
      `${events} failures`,
    );
  let low = Math.log(LEAST_SHAPE);
  let high = Math.log(LARGEST_SHAPE);
  let at = Math.min(high, Math.max(low, Math.log(1.28 / sdLogFailure)));
  for (let step = 0; step < MOST_STEPS && high - low > CLOSE; step++) {
    const { value, slope } = score(Math.exp(at));
    if (value > 0) high = at;
    else low = at;
    const newton = at - value / slope;
    const next = slope > 0 && newton > low && newton < high ? newton : (low + high) / 2;
    const moved = Math.abs(next - at);
    at = next;
    if (moved < CLOSE) break;
  }
  const shape = Math.exp(at);
  if (shape > 0.99 * LARGEST_SHAPE || shape < 1.01 * LEAST_SHAPE)
    return decline(
      'failures too close together, or too far apart, for a shape',
      `a shape between ${LEAST_SHAPE} and ${LARGEST_SHAPE}`,
      `${events} failures whose logarithms have a standard deviation of ${sdLogFailure.toPrecision(2)}`,
    );
  return shape;
}

function describeFit(columns: LogLives, shape: number, confidence: number): WeibullLife | Declined {
  const { events, largest, meanLogFailure } = columns;
  const { a, mean, variance } = sumWeibullPowers(columns, shape);
  const logScale = Math.log(a / events) / shape;
  const scale = largest * Math.exp(logScale);
  const lean = mean - logScale;
  const varLogShape = 1 / (events * (1 + shape * shape * variance));
  const varLogScale = 1 / (shape * shape * events) + lean * lean * varLogShape;
  const spread = { shape, scale, varLogScale, varLogShape, covLogs: lean * varLogShape };
  const z = normalWidth(confidence);
  const widthShape = z * Math.sqrt(varLogShape);
  const widthScale = z * Math.sqrt(varLogScale);
  const fit = {
    ...spread,
    seShape: shape * Math.sqrt(varLogShape),
    seScale: scale * Math.sqrt(varLogScale),
    seLogScale: Math.sqrt(varLogScale),
    loglik:
      events * (Math.log(shape) + (shape - 1) * meanLogFailure - shape * logScale - Math.log(largest) - 1),
    shapeLow: shape * Math.exp(-widthShape),
    shapeHigh: shape * Math.exp(widthShape),
    scaleLow: scale * Math.exp(-widthScale),
    scaleHigh: scale * Math.exp(widthScale),
    b10: quantileOfWeibull(spread, 0.1, confidence),
    b50: quantileOfWeibull(spread, 0.5, confidence),
    events,
  };
  const numbers = [...Object.values(fit), ...Object.values(fit.b10), ...Object.values(fit.b50)];
  if (numbers.some((one) => typeof one === 'number' && !Number.isFinite(one)))
    return decline(
      'so uncertain that bounds lie beyond all numbers',
      'more failures',
      `${events} failures, shape ${shape.toPrecision(3)}`,
    );
  return fit;
}
