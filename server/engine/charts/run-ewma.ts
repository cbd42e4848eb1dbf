export interface Ewma {
  /** moving average after each value, unit of the values */
  z: number[];
  /** limits at each value, and those they tend to */
  upper: number[];
  lower: number[];
  upperInTheLongRun: number;
  lowerInTheLongRun: number;
  /** places, from 0, at which z lies outside the limits, and outside those of the long run */
  alarms: number[];
  alarmsInTheLongRun: number[];
  firstAlarm: number | null;
}

/**
 * Exponentially weighted moving average chart (EWMA).
 *
 * z_0 = target; z_t = lambda y_t + (1 - lambda) z_{t-1};
 * limits target +- L sigma sqrt(lambda / (2 - lambda) (1 - (1 - lambda)^(2t))), in the long run without the last
 * factor.
 *
 * @param values in order, any unit
 * @param target level that the values should have, unit of the values
 * @param sigma  standard deviation of one value, unit of the values
 * @param lambda weight of the newest value, above 0 to 1
 * @param width  L, half width of the limits in standard deviations of z; usually 3
 * @returns averages, limits and alarms
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.4; limits at each value: Lucas and
 * Saccucci (1990), Technometrics 32, 1-12. Variant: alarms by the limits at each value.
 * Edges: no values give no averages and no alarm. Errors: throws on values that are not finite, sigma below 0,
 * lambda outside 0 to 1 or a width of 0 or less.
 * @example runEwma({ values: [2, 4], target: 0, sigma: 1, lambda: 0.5 }) // z [1, 2.5], firstAlarm 1
 */
export function runEwma({
  values,
  target,
  sigma,
  lambda,
  width = 3,
}: {
  values: readonly number[];
  target: number;
  sigma: number;
  lambda: number;
  width?: number;
}): Ewma {
  if (!values.every(Number.isFinite) || !Number.isFinite(target))
    throw new Error('runEwma requires finite values');
  if (!(sigma >= 0 && width > 0)) throw new Error('runEwma requires sigma of 0 or more and a width above 0');
  if (!(lambda > 0 && lambda <= 1)) throw new Error('runEwma requires lambda above 0 and at most 1');
  const reach = width * sigma * Math.sqrt(lambda / (2 - lambda));
  let last = target;
  const z = values.map((value) => {
    last = lambda * value + (1 - lambda) * last;
    return last;
  });
  const reaches = values.map((_, i) => reach * Math.sqrt(1 - (1 - lambda) ** (2 * (i + 1))));
  const outside = (limit: (i: number) => number) => {
    const places: number[] = [];
    for (const [i, one] of z.entries()) if (Math.abs(one - target) > limit(i)) places.push(i);
    return places;
  };
  const alarms = outside((i) => reaches[i] ?? reach);
  return {
    z,
    upper: reaches.map((one) => target + one),
    lower: reaches.map((one) => target - one),
    upperInTheLongRun: target + reach,
    lowerInTheLongRun: target - reach,
    alarms,
    alarmsInTheLongRun: outside(() => reach),
    firstAlarm: alarms[0] ?? null,
  };
}
