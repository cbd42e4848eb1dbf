/** Points in order of x, and of y where x is equal. */
export interface OrderedPoints {
  x: Float64Array;
  y: Float64Array;
}

/** How many slopes of pairs with different x lie on either side of a value, as far as rounding lets it be seen. */
export interface SlopeCount {
  /** slopes that are below the value for certain */
  below: number;
  /** slopes that are not above it for certain: these, and the ones too near to tell */
  notAbove: number;
}

/** Bounds between which each point lies for certain when it is looked at along a slope. */
export interface Projection {
  lower: Float64Array;
  upper: Float64Array;
}

/** Half a unit in the last place of 1. */
const ROUNDING = 2 ** -53;

/**
 * Count the slopes of all pairs below a value, without forming them.
 *
 * With z = y - value x, a pair of x_i < x_j has a slope below the value where z_j < z_i, so inversions of z in the order
 * of x are counted while merging. z is known between two bounds ({@link projectPoints}): below for certain are pairs
 * with upper_j < lower_i, not above for certain those with lower_j <= upper_i.
 *
 * @param points in order of x, then of y
 * @param value  any slope, unit of y per unit of x, also infinite
 * @returns both counts; pairs of equal x count in neither
 * Source: Cole, Salowe, Steiger and Szemeredi (1989), SIAM J. Comput. 18, 792-810; counting by merging, Knight (1966),
 * J. Amer. Statist. Assoc. 61, 436-439 (both from memory); the bounds are own work.
 * Cost O(n log n). Edges: at 0 nothing is rounded and both counts are exact. Errors: none; the order is not checked.
 * @example countSlopes({ x: Float64Array.of(0, 1, 2), y: Float64Array.of(0, 1, 5) }, 2) // below 1, notAbove 1
 */
export function countSlopes(points: OrderedPoints, value: number): SlopeCount {
  const { x } = points;
  const { lower, upper } = projectPoints(points, value);
  // Within equal x no pair is below, since z rises with y, but some are too near to tell.
  let tied = 0;
  for (let from = 0; from < x.length; ) {
    let to = from + 1;
    while (to < x.length && x[to] === x[from]) to++;
    if (to - from > 1) tied += countInversions(lower.slice(from, to), upper.slice(from, to)).notAbove;
    from = to;
  }
  const { below, notAbove } = countInversions(lower, upper);
  return { below, notAbove: notAbove - tied };
}

/**
 * The points seen along a slope: z = y - slope x about a point in the middle, with a bound on the rounding.
 *
 * z -+ u (4 |y - y0| + 12 |slope| |x - x0|), u = 2^-53: enough for the rounding of z, of the bounds themselves and of
 * the slope (y_j - y_i) / (x_j - x_i), so that what the bounds tell holds for that rounded slope too.
 *
 * @param points in order of x, then of y
 * @param slope  unit of y per unit of x; infinite ones give the order of x
 * @returns both bounds in the order of the points
 * Source: own work, the usual bounds of floating-point error. Edges: at slope 0 both are y. Errors: none.
 * @example projectPoints({ x: Float64Array.of(1, 2), y: Float64Array.of(3, 4) }, 0).lower // Float64Array [3, 4]
 */
export function projectPoints({ x, y }: OrderedPoints, slope: number): Projection {
  if (slope === 0) return { lower: y.slice(), upper: y.slice() };
  if (!Number.isFinite(slope)) {
    const z = slope < 0 ? x : x.map((one) => -one);
    return { lower: z.slice(), upper: z.slice() };
  }
  const n = x.length;
  const [x0, y0] = [x[n >> 1] ?? 0, y[n >> 1] ?? 0];
  const [lower, upper] = [new Float64Array(n), new Float64Array(n)];
  for (let i = 0; i < n; i++) {
    const dy = (y[i] ?? 0) - y0;
    const rise = slope * ((x[i] ?? 0) - x0);
    const z = dy - rise;
    const error = ROUNDING * (4 * Math.abs(dy) + 12 * Math.abs(rise));
    lower[i] = z - error;
    upper[i] = z + error;
  }
  return { lower, upper };
}

/** Pairs i < j with upper_j < lower_i, and with lower_j <= upper_i. Both arrays are sorted on the way. */
function countInversions(lower: Float64Array, upper: Float64Array): SlopeCount {
  const n = lower.length;
  let lows = lower;
  let highs = upper;
  let nextLows: Float64Array = new Float64Array(n);
  let nextHighs: Float64Array = new Float64Array(n);
  const count = { below: 0, notAbove: 0 };
  for (let from = 0; from < n; from += BLOCK) countAndSortBlock(lows, highs, from, count);
  for (let width = BLOCK; width < n; width *= 2) {
    for (let low = 0; low < n; low += 2 * width) {
      const middle = Math.min(low + width, n);
      const high = Math.min(low + 2 * width, n);
      count.below += mergeAndCount(highs, nextHighs, { low, middle, high, other: lows, equal: 0 });
      count.notAbove += mergeAndCount(lows, nextLows, { low, middle, high, other: highs, equal: 1 });
    }
    [lows, nextLows, highs, nextHighs] = [nextLows, lows, nextHighs, highs];
  }
  return count;
}

/** Points that are compared one by one, which is quicker than to merge so few. */
const BLOCK = 8;

function countAndSortBlock(lows: Float64Array, highs: Float64Array, from: number, count: SlopeCount): void {
  const to = Math.min(from + BLOCK, lows.length);
  for (let j = from + 1; j < to; j++) {
    const [low, high] = [lows[j] ?? 0, highs[j] ?? 0];
    for (let i = from; i < j; i++) {
      if ((lows[i] ?? 0) > high) count.below++;
      if ((highs[i] ?? 0) >= low) count.notAbove++;
    }
  }
  insert(lows, from, to);
  insert(highs, from, to);
}

function insert(values: Float64Array, from: number, to: number): void {
  for (let place = from + 1; place < to; place++) {
    const one = values[place] ?? 0;
    let at = place;
    for (; at > from && (values[at - 1] ?? 0) > one; at--) values[at] = values[at - 1] ?? 0;
    values[at] = one;
  }
}

interface Merge {
  low: number;
  middle: number;
  high: number;
  /** the other bound, in runs of the same points */
  other: Float64Array;
  /** 1 where an equal one counts */
  equal: 0 | 1;
}

/** Merges two runs, and counts for each value of the right one the values of the left run's other bound above it. */
function mergeAndCount(
  from: Float64Array,
  into: Float64Array,
  { low, middle, high, other, equal }: Merge,
): number {
  let [left, passed, place, count] = [low, low, low, 0];
  for (let right = middle; right < high; right++) {
    const one = from[right] ?? 0;
    while (left < middle && (from[left] ?? 0) <= one) into[place++] = from[left++] ?? 0;
    if (equal === 1) while (passed < middle && (other[passed] ?? 0) < one) passed++;
    else while (passed < middle && (other[passed] ?? 0) <= one) passed++;
    count += middle - passed;
    into[place++] = one;
  }
  while (left < middle) into[place++] = from[left++] ?? 0;
  return count;
}
