/** How p-values of many tests are adjusted, with what is kept at or below the level. */
export type Adjustment = 'bh' | 'by' | 'bonferroni' | 'holm' | 'hochberg';

/**
 * Adjusted p-values (q-values) of Benjamini and Hochberg, and of four stricter rules.
 *
 * p_(1) <= ... <= p_(m). bh: q_(i) = min over j >= i of min(1, m p_(j) / j); calling every test with q <= level keeps
 * the expected share of false ones among the called at or below the level. by: the same times 1 + 1/2 + ... + 1/m,
 * which holds for any dependence. The others keep the chance of a single false call: bonferroni min(1, m p); holm
 * max over j <= i of (m - j + 1) p_(j); hochberg min over j >= i of (m - j + 1) p_(j).
 *
 * @param pValues each from 0 to 1
 * @param adjustment the rule, bh
 * @returns q-values in the order of the p-values
 * Source: Benjamini and Hochberg (1995), J. R. Statist. Soc. B 57, 289-300; as adjusted values, Yekutieli and
 * Benjamini (1999), J. Statist. Plann. Inference 82, 171-196; Benjamini and Yekutieli (2001), Ann. Statist. 29,
 * 1165-1188; Holm (1979), Scand. J. Statist. 6, 65-70; Hochberg (1988), Biometrika 75, 800-802 (all from memory). bh and
 * hochberg hold for independent and for positively dependent tests.
 * Edges: none give none. Errors: throws on a value outside 0 to 1.
 * @example adjustPValues([0.01, 0.04, 0.03]) // [0.03, 0.04, 0.04]
 */
export function adjustPValues(pValues: readonly number[], adjustment: Adjustment = 'bh'): number[] {
  if (!pValues.every((p) => p >= 0 && p <= 1)) throw new Error('adjustPValues requires values from 0 to 1');
  const m = pValues.length;
  const rising = pValues.map((_, i) => i).sort((a, b) => (pValues[a] ?? 0) - (pValues[b] ?? 0));
  const weighed = rising.map((i, place) => weigh(pValues[i] ?? 1, place + 1, m, adjustment));
  const adjusted = new Array<number>(m).fill(1);
  if (adjustment === 'holm') {
    let most = 0;
    for (const [place, i] of rising.entries()) {
      most = Math.max(most, weighed[place] ?? 0);
      adjusted[i] = Math.min(1, most);
    }
    return adjusted;
  }
  let least = 1;
  for (let place = m - 1; place >= 0; place--) {
    least = Math.min(least, weighed[place] ?? 1);
    adjusted[rising[place] ?? 0] = least;
  }
  return adjusted;
}

function weigh(p: number, rank: number, m: number, adjustment: Adjustment): number {
  if (adjustment === 'bonferroni') return p * m;
  if (adjustment === 'holm' || adjustment === 'hochberg') return p * (m - rank + 1);
  const plain = (p * m) / rank;
  if (adjustment === 'bh') return plain;
  return plain * Array.from({ length: m }, (_, i) => 1 / (i + 1)).reduce((a, b) => a + b, 0);
}
