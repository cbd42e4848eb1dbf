import { type Declined, decline } from '#server/engine/declined.ts';

export interface WienerDrift {
  increments: number;
  /** unit of y per unit of t */
  drift: number;
  /** of the increments, (unit of y)^2 per unit of t: the maximum likelihood estimate */
  variance: number;
  seDrift: number;
}

/**
 * Wiener process with drift: maximum likelihood from increments.
 *
 * Y(t) = drift t + sigma B(t). drift = sum dy / sum dt; variance = sigma^2 = mean of (dy - drift dt)^2 / dt;
 * se(drift) = sqrt(variance / sum dt). Several series share drift and variance.
 *
 * @param series each with t rising, any unit, and y
 * @returns estimates, or declined below 2 increments
 * Source: Chhikara and Folks (1989), The Inverse Gaussian Distribution, sections 2.2 and 10; Whitmore (1995),
 * Lifetime Data Analysis 1, 307-319 (from memory). Variant: no measurement error; where there is some, the variance
 * is too large. Edges: increments without scatter give variance 0.
 * Errors: throws on unequal lengths, values that are not finite and t that does not rise.
 * @example fitWienerDrift([{ t: [0, 1, 3], y: [0, 2, 4] }]) // drift 4/3, variance 1/3
 */
export function fitWienerDrift(
  series: readonly { t: readonly number[]; y: readonly number[] }[],
): WienerDrift | Declined {
  const steps = series.flatMap(({ t, y }) => {
    if (t.length !== y.length) throw new Error('fitWienerDrift requires as many y as t');
    if (![...t, ...y].every(Number.isFinite)) throw new Error('fitWienerDrift requires finite t and y');
    return t.slice(1).map((to, i) => {
      const dt = to - (t[i] ?? 0);
      if (!(dt > 0)) throw new Error('fitWienerDrift requires t that rises');
      return { dt, dy: (y[i + 1] ?? 0) - (y[i] ?? 0) };
    });
  });
  const n = steps.length;
  if (n < 2) return decline('too few increments', 'at least 2', `${n}`);
  const span = steps.reduce((sum, { dt }) => sum + dt, 0);
  const drift = steps.reduce((sum, { dy }) => sum + dy, 0) / span;
  const variance = steps.reduce((sum, { dt, dy }) => sum + (dy - drift * dt) ** 2 / dt, 0) / n;
  return { increments: n, drift, variance, seDrift: Math.sqrt(variance / span) };
}
