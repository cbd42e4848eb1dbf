import { type OrderedPoints, projectPoints } from './count-slopes.ts';

/**
 * The slopes of the pairs that lie between two values, and of those too near to one of them to tell.
 *
 * Pairs with upper_j >= lower_i at the lower value and lower_j <= upper_i at the upper one, bounds as in
 * {@link projectPoints}: in the order of z at the lower value they are the inversions of z at the upper one, listed
 * while merging; the few whose z at the lower value are too near to tell are looked up beside it.
 *
 * @param points in order of x, then of y
 * @param low, high values, low below high, also infinite
 * @param count  how many there are: notAbove at the upper less below at the lower value (countSlopes)
 * @returns (y_j - y_i) / (x_j - x_i) of each, in no order
 * Source: Matousek (1991), Inform. Process. Lett. 39, 183-187 (from memory). Cost O(n log n + count).
 * Edges: pairs of equal x are left out. Errors: throws where there are not as many as said.
 * @example listSlopes({ x: Float64Array.of(0, 1, 2), y: Float64Array.of(0, 1, 5) }, 0.5, 3, 2) // 1 and 2.5
 */
export function listSlopes(points: OrderedPoints, low: number, high: number, count: number): Float64Array {
  const { x, y } = points;
  const n = x.length;
  const at = projectPoints(points, low);
  const { lower, upper } = projectPoints(points, high);
  const slopes = new Float64Array(count);
  let found = 0;
  const add = (i: number, j: number) => {
    const dx = (x[j] ?? 0) - (x[i] ?? 0);
    if (dx > 0) slopes[found++] = ((y[j] ?? 0) - (y[i] ?? 0)) / dx;
  };

  const order = sortBy(at.lower);
  for (let p = 0; p < n; p++) {
    const j = order[p] ?? 0;
    for (let q = p + 1; q < n; q++) {
      const i = order[q] ?? 0;
      if ((at.lower[i] ?? 0) > (at.upper[j] ?? 0)) break;
      if ((lower[j] ?? 0) <= (upper[i] ?? 0)) add(i, j);
    }
  }

  // Two orders of each run: by the lower bound for the later point of a pair, by the upper one for the earlier.
  let byLower = order;
  let byUpper: Uint32Array = order.slice();
  let nextLower: Uint32Array = new Uint32Array(n);
  let nextUpper: Uint32Array = new Uint32Array(n);
  for (let width = 1; width < n; width *= 2) {
    for (let start = 0; start < n; start += 2 * width) {
      const middle = Math.min(start + width, n);
      const end = Math.min(start + 2 * width, n);
      let first = start;
      for (let right = middle; right < end; right++) {
        const j = byLower[right] ?? 0;
        const one = lower[j] ?? 0;
        while (first < middle && (upper[byUpper[first] ?? 0] ?? 0) < one) first++;
        for (let k = first; k < middle; k++) add(byUpper[k] ?? 0, j);
      }
      mergeRuns(byLower, nextLower, lower, [start, middle, end]);
      mergeRuns(byUpper, nextUpper, upper, [start, middle, end]);
    }
    [byLower, nextLower, byUpper, nextUpper] = [nextLower, byLower, nextUpper, byUpper];
  }
  if (found !== count) throw new Error(`listSlopes requires the true count: ${count}, not ${found}`);
  return slopes;
}

function sortBy(keys: Float64Array): Uint32Array {
  let from: Uint32Array = Uint32Array.from(keys.keys());
  let into: Uint32Array = new Uint32Array(keys.length);
  for (let width = 1; width < keys.length; width *= 2) {
    for (let start = 0; start < keys.length; start += 2 * width) {
      const middle = Math.min(start + width, keys.length);
      mergeRuns(from, into, keys, [start, middle, Math.min(start + 2 * width, keys.length)]);
    }
    [from, into] = [into, from];
  }
  return from;
}

function mergeRuns(
  from: Uint32Array,
  into: Uint32Array,
  keys: Float64Array,
  [start, middle, end]: readonly [number, number, number],
): void {
  let [left, right] = [start, middle];
  for (let place = start; place < end; place++) {
    const takeLeft =
      right >= end || (left < middle && (keys[from[left] ?? 0] ?? 0) <= (keys[from[right] ?? 0] ?? 0));
    into[place] = (takeLeft ? from[left++] : from[right++]) ?? 0;
  }
}
