/**
 * Exact two-sided p-value of Kendall's S without ties.
 *
 * P(|S| >= |s|) over all n! orders, each as likely as the other. The number of discordant pairs of k values is that of
 * k - 1 values plus a whole number from 0 to k - 1, each as likely as the other; S = n(n-1)/2 - 2 discordant.
 *
 * @param n values, 1 or more
 * @param s Kendall's S
 * @returns probability
 * Source: Kendall (1975), Rank Correlation Methods, 4th ed., section 5.2 (from memory). Cost O(n^3): meant for few
 * values, where the normal approximation of testMannKendall is rough. Variant: two-sided as twice the smaller tail, which
 * is the same, S being symmetric. Edges: s of 0 gives 1. Errors: throws on n that is not whole or below 1.
 * @example chanceOfKendall({ n: 3, s: 3 }) // 1 / 3: two of six orders
 */
export function chanceOfKendall({ n, s }: { n: number; s: number }): number {
  if (!Number.isInteger(n) || n < 1) throw new Error('chanceOfKendall requires a whole n of 1 or more');
  let chances = [1];
  for (let k = 2; k <= n; k++) {
    const longer = new Array<number>(chances.length + k - 1).fill(0);
    for (const [discordant, chance] of chances.entries()) {
      for (let more = 0; more < k; more++) {
        longer[discordant + more] = (longer[discordant + more] ?? 0) + chance / k;
      }
    }
    chances = longer;
  }
  const pairs = (n * (n - 1)) / 2;
  const far = chances.filter((_, discordant) => Math.abs(pairs - 2 * discordant) >= Math.abs(s));
  return Math.min(
    1,
    far.reduce((sum, chance) => sum + chance, 0),
  );
}
