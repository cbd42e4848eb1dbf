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
  if (!areFinite(x) || !areFinite(y)) {
    throw new Error(`${caller} requires finite x and y`);
  }
  if (weight !== undefined && !areWeights(weight)) {
    throw new Error(`${caller} requires finite weights of 0 or more`);
  }
  const order = sortedPlaces(x, weight);
  const n = order.length;
  const sorted: SortedPoints = {
    n,
    x: new Float64Array(n),
    y: new Float64Array(n),
    w: new Float64Array(n).fill(1),
    distinct: 0,
  };
  for (let place = 0; place < n; place++) {
    const i = order[place] ?? 0;
    sorted.x[place] = x[i] ?? 0;
    sorted.y[place] = y[i] ?? 0;
    if (weight !== undefined) sorted.w[place] = weight[i] ?? 0;
    if (place === 0 || sorted.x[place] !== sorted.x[place - 1]) sorted.distinct++;
  }
  return sorted;
}

/** One by one: this is asked for every series of every vehicle. */
function areFinite(values: readonly number[]): boolean {
  for (let i = 0; i < values.length; i++) if (!Number.isFinite(values[i])) return false;
  return true;
}

function areWeights(values: readonly number[]): boolean {
  for (let i = 0; i < values.length; i++)
    if (!Number.isFinite(values[i]) || !((values[i] ?? -1) >= 0)) return false;
  return true;
}

/** Places of the points that weigh anything, in order of x. */
function sortedPlaces(x: readonly number[], weight: readonly number[] | undefined): Uint32Array {
  const order = new Uint32Array(x.length);
  let n = 0;
  let isSorted = true;
  for (let i = 0; i < x.length; i++) {
    if (weight?.[i] === 0) continue;
    isSorted &&= n === 0 || (x[order[n - 1] ?? 0] ?? 0) <= (x[i] ?? 0);
    order[n++] = i;
  }
  const places = order.subarray(0, n);
  return isSorted ? places : places.sort((a, b) => (x[a] ?? 0) - (x[b] ?? 0) || a - b);
}
