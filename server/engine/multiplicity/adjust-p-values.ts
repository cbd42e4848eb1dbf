/**
 * Adjusted p-values (q-values) of Benjamini and Hochberg.
 *
 * q_(i) = min over j >= i of min(1, m p_(j) / j), p_(1) <= ... <= p_(m). Calling every test with q <= level keeps
 * the expected share of false ones among the called at or below the level.
 *
 * @param pValues each from 0 to 1
 * @returns q-values in the order of the p-values
 * Source: Benjamini and Hochberg (1995), J. R. Statist. Soc. B 57, 289-300; as adjusted values, Yekutieli and
 * Benjamini (1999), J. Statist. Plann. Inference 82, 171-196 (from memory). Holds for independent and for positively
 * dependent tests. Edges: none give none. Errors: throws on a value outside 0 to 1.
 * @example adjustPValues([0.01, 0.04, 0.03]) // [0.03, 0.04, 0.04]
 */
export function adjustPValues(pValues: readonly number[]): number[] {
  if (!pValues.every((p) => p >= 0 && p <= 1)) throw new Error('adjustPValues requires values from 0 to 1');
  const m = pValues.length;
  const order = pValues.map((_, i) => i).sort((a, b) => (pValues[b] ?? 0) - (pValues[a] ?? 0));
  const adjusted = new Array<number>(m).fill(1);
  let least = 1;
  for (const [place, i] of order.entries()) {
    least = Math.min(least, ((pValues[i] ?? 1) * m) / (m - place));
    adjusted[i] = least;
  }
  return adjusted;
}
