/** Points of one series; weights are optional and then each 1. */
export interface Points {
  /** where each was taken, for instance km or days; in any order */
  x: readonly number[];
  /** what was seen there, for instance rpm of slip */
  y: readonly number[];
  /** not negative; what it stands for is said where it is used; a point of weight 0 takes no part */
  weight?: readonly number[] | undefined;
}

/** Points in order of x, without those of weight 0. */
export interface SortedPoints {
  n: number;
  x: Float64Array;
  y: Float64Array;
  w: Float64Array;
  /** how many different x there are */
  distinct: number;
}

/**
 * Points in order of x, after a check that they can be worked with.
 *
 * @param caller name of the function that was called, for the error
 * @param points the series
 * @returns sorted copies; points with equal x keep the order they came in
 * Source: own rule. Edges: no points give n = 0.
 * Errors: throws `<caller> requires ...` on unequal lengths, values that are not finite, negative weights.
 * @example requirePoints('fitOls', { x: [2, 1], y: [5, 4] }).y // Float64Array [4, 5]
 */
export function requirePoints(caller: string, { x, y, weight }: Points): SortedPoints {
  if (x.length !== y.length) throw new Error(`${caller} requires as many y as x`);
  if (weight !== undefined && weight.length !== x.length) {
    throw new Error(`${caller} requires a weight for each point`);
  }
  if (!x.every(Number.isFinite) || !y.every(Number.isFinite)) {
    throw new Error(`${caller} requires finite x and y`);
  }
  if (weight !== undefined && !weight.every((w) => Number.isFinite(w) && w >= 0)) {
    throw new Error(`${caller} requires finite weights of 0 or more`);
  }
  const order = x.map((_, i) => i).filter((i) => weight?.[i] !== 0);
  const isSorted = order.every((i, place) => place === 0 || (x[order[place - 1] ?? 0] ?? 0) <= (x[i] ?? 0));
  if (!isSorted) order.sort((a, b) => (x[a] ?? 0) - (x[b] ?? 0) || a - b);
  const sorted: SortedPoints = {
    n: order.length,
    x: Float64Array.from(order, (i) => x[i] ?? 0),
    y: Float64Array.from(order, (i) => y[i] ?? 0),
    w: Float64Array.from(order, (i) => weight?.[i] ?? 1),
    distinct: 0,
  };
  for (let i = 0; i < sorted.n; i++) if (i === 0 || sorted.x[i] !== sorted.x[i - 1]) sorted.distinct++;
  return sorted;
}
