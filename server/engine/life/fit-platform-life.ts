import { isDeclined } from '#server/engine/declined.ts';
import { expectLife } from './expect-life.ts';
import { fitSharedShape } from './fit-shared-shape.ts';
import { fitWeibull } from './fit-weibull.ts';
import type { ObservedLife } from './life-model.ts';
import type { PlatformLife } from './platform-life.ts';

/** Own failures from which a platform has a life of its own. Own choice. */
export const LEAST_OWN = 5;
/** Failures of the whole fleet from which a life is fitted at all. Own choice. */
export const LEAST_FLEET = 3;
/**
 * What the fleet's life weighs beside a platform's own, in failures. Platforms of one fleet are taken to differ in scale by
 * a third or so: at a shape of 2.2 their rates then spread by 0.7 in the logarithm, as a gamma prior worth two does.
 */
export const PRIOR_FAILURES = 2;

/**
 * Weibull life of a platform's converters, from its own failures as far as they carry.
 *
 * From 5 own failures their own fit ({@link fitWeibull}). With fewer, the shape k of the whole fleet, each platform with a
 * scale of its own ({@link fitSharedShape}), and rate = (2 + d) / (2 * T_fleet / d_fleet + T), scale = rate^(-1 / k), with
 * d own failures and T = sum(exit^k - entry^k) own use: a gamma prior at the fleet's rate that weighs two failures. With
 * no failure of its own that is the fleet's life, longer where much use passed without one. With fewer than 3 failures
 * in the fleet the expected life of the settings ({@link expectLife}).
 *
 * @param own        lives of the platform, km
 * @param fleet      lives of every platform, one list each, the own one among them, km
 * @param expectedKm mean life of the settings, km; null where none is set
 * @returns shape, scale and what they rest on; null where nothing is known and nothing expected
 * Source: gamma prior of an exponential rate in the time x^k, Gelman et al. 2013, section 2.6; variance of the scale by
 * the delta method. Thresholds and weight are our own. Edges: own failures of which no fit can be had, for instance all at
 * one mileage, count as few. Errors: none.
 * @example fitPlatformLife([], [], 300_000) // basis 'expected', shape 2.2
 */
export function fitPlatformLife(
  own: readonly ObservedLife[],
  fleet: readonly (readonly ObservedLife[])[],
  expectedKm: number | null,
): PlatformLife | null {
  const failures = countFailures(own);
  const fleetFailures = fleet.reduce((sum, lives) => sum + countFailures(lives), 0);
  const counts = { lives: own.reduce((sum, { count }) => sum + count, 0), failures, fleetFailures };
  if (fleetFailures < LEAST_FLEET)
    return expectedKm === null
      ? null
      : { basis: 'expected', ...expectLife(expectedKm), ...counts, variances: null };
  const fitted = failures < LEAST_OWN ? null : fitWeibull(own, 0.95);
  if (fitted !== null && !isDeclined(fitted))
    return {
      basis: 'own',
      shape: fitted.shape,
      scaleKm: fitted.scale,
      ...counts,
      variances: {
        logScale: fitted.varLogScale,
        logShape: fitted.varLogShape,
        covariance: fitted.covLogs,
      },
    };
  const { shape, varLogShape } = fitSharedShape(fleet);
  const all = fleet.flat();
  const logScaleAt = (k: number): number => {
    const perFailure = logUse(all, k) - Math.log(fleetFailures);
    const prior = Math.log(PRIOR_FAILURES) + perFailure;
    return (addLogs(prior, logUse(own, k)) - Math.log(PRIOR_FAILURES + failures)) / k;
  };
  const step = 1e-4;
  const slope = (logScaleAt(shape * Math.exp(step)) - logScaleAt(shape * Math.exp(-step))) / (2 * step);
  return {
    basis: failures > 0 ? 'shared_shape' : 'fleet',
    shape,
    scaleKm: Math.exp(logScaleAt(shape)),
    ...counts,
    variances: {
      logScale: 1 / (shape ** 2 * (PRIOR_FAILURES + failures)) + slope ** 2 * varLogShape,
      logShape: varLogShape,
      covariance: slope * varLogShape,
    },
  };
}

const countFailures = (lives: readonly ObservedLife[]): number =>
  lives.reduce((sum, { event, count }) => sum + (event ? count : 0), 0);

/** Logarithm of sum(exit^k - entry^k), without leaving the range of numbers; minus infinity for none. */
function logUse(lives: readonly ObservedLife[], shape: number): number {
  const most = lives.reduce((largest, { exit }) => Math.max(largest, exit), 0);
  if (most === 0) return Number.NEGATIVE_INFINITY;
  const share = lives.reduce(
    (sum, { entry, exit, count }) => sum + count * ((exit / most) ** shape - (entry / most) ** shape),
    0,
  );
  return shape * Math.log(most) + Math.log(share);
}

function addLogs(a: number, b: number): number {
  const larger = Math.max(a, b);
  return larger + Math.log(Math.exp(a - larger) + Math.exp(b - larger));
}
