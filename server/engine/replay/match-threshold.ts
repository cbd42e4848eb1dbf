/** Values that are tried first, spread evenly over those seen from the highest down. */
const TRIED = 48;
const HALVINGS = 24;

/**
 * Threshold at which a rule asks for as many inspections as another way does.
 *
 * From the highest value down, the first threshold at which the rule asks at least as often is enclosed and then halved; of
 * the two sides the nearer in number is taken.
 *
 * @param values  that the rule looks at, any order
 * @param wanted  number of inspections
 * @param countAt how many the rule asks for at a threshold
 * @returns threshold; null without values
 * Source: bisection. Edges: where it never asks so often, the threshold that asks most; the number need not rise evenly as
 * the threshold falls, since times of asking run together: the highest threshold that will do is meant. Errors: none.
 * @example matchThreshold([1, 2, 3, 4], 2, (x) => [1, 2, 3, 4].filter((v) => v >= x).length) // between 2 and 3
 */
export function matchThreshold(
  values: readonly number[],
  wanted: number,
  countAt: (threshold: number) => number,
): number | null {
  const sorted = Float64Array.from(values).sort();
  const highest = sorted.at(-1);
  if (highest === undefined) return null;
  let above = highest + 1;
  let most = { threshold: above, count: 0 };
  for (let i = 0; i <= TRIED; i++) {
    // Squared, so that the few high values are looked at closely.
    const at = Math.floor((sorted.length - 1) * (1 - (i / TRIED) ** 2));
    const below = sorted[at] ?? highest;
    const count = countAt(below);
    if (count > most.count) most = { threshold: below, count };
    if (count >= wanted) return halve(above, below, wanted, countAt);
    above = below;
  }
  return most.threshold;
}

function halve(high: number, low: number, wanted: number, countAt: (threshold: number) => number): number {
  let [few, many] = [high, low];
  for (let step = 0; step < HALVINGS && few - many > 1e-9 * Math.max(1, Math.abs(few)); step++) {
    const middle = (few + many) / 2;
    if (countAt(middle) >= wanted) many = middle;
    else few = middle;
  }
  return wanted - countAt(few) < countAt(many) - wanted ? few : many;
}
