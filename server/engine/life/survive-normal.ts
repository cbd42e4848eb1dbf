import { logNormalCdf } from '#server/engine/distributions/log-normal-cdf.ts';

const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI);
/** From here on the series has all digits that the quotient has. */
const FAR = 30;

/**
 * Upper tail of the standard normal distribution as a likelihood needs it: logarithm, hazard, and its slope.
 *
 * log S = log Phi(-z), h = phi(z) / S (Mills), h' = h (h - z); beyond z = 30 by h = z + 1/z - 2/z^3 + 10/z^5 and
 * h' = 1 - 1/z^2 + 6/z^4.
 *
 * @param z standard deviations from the mean
 * @returns log survival, hazard and its derivative by z
 * Source: Abramowitz and Stegun (1964), 26.2.12 (expansion). Edges: z of -Infinity gives 0, 0 and 0. Errors: none.
 * @example surviveNormal(0) // logSurvival -0.693147, hazard 0.797885, slope 0.636620
 */
export function surviveNormal(z: number): { logSurvival: number; hazard: number; slope: number } {
  if (z === Number.NEGATIVE_INFINITY) return { logSurvival: 0, hazard: 0, slope: 0 };
  const logSurvival = logNormalCdf(-z);
  if (z > FAR)
    return {
      logSurvival,
      hazard: z + 1 / z - 2 / z ** 3 + 10 / z ** 5,
      slope: 1 - 1 / z ** 2 + 6 / z ** 4,
    };
  const hazard = Math.exp(-0.5 * z * z - HALF_LOG_TWO_PI - logSurvival);
  return { logSurvival, hazard, slope: hazard * (hazard - z) };
}
