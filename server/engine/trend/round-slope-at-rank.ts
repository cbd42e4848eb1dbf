import { countSlopes, type OrderedPoints } from './count-slopes.ts';

/** Multiplied by it, a number falls into two halves of 26 bits. */
const SPLITTER = 2 ** 27 + 1;

/**
 * Slope at a place in the order of all pairs, as the nearest floating-point number to its exact value.
 *
 * For a number w, slopes below the middle between w and its neighbour are counted with z = y - m x in two words of 53
 * bits, m that middle; w is the answer where the rank lies between the counts of its two middles. Otherwise the numbers
 * beside w are tried in growing steps, then by halving.
 *
 * @param points in order of x, then of y
 * @param rank   from 0 for the smallest slope of pairs with different x
 * @param start  a number near the answer
 * @returns the slope, unit of y per unit of x
 * Source: exact products and sums, Dekker (1971), Numer. Math. 18, 224-242; counting as in countSlopes. For slopes that
 * millions of pairs share, which listing would not end with. Variant: where differences of x and of y are themselves
 * exact (whole numbers, for instance) this is (y_j - y_i) / (x_j - x_i) to the last bit; else within 2 units of it.
 * Cost O(n log n) for each number tried. Edges: none. Errors: none; rank and order are not checked.
 * @example roundSlopeAtRank({ x: Float64Array.of(0, 3, 6), y: Float64Array.of(0, 1, 2) }, 1, 0.3) // 1 / 3
 */
export function roundSlopeAtRank(points: OrderedPoints, rank: number, start: number): number {
  // Beside 0 numbers are so dense that products are no longer exact; there signs alone decide.
  const level = countSlopes(points, 0);
  if (rank >= level.below && rank < level.notAbove) return 0;
  const isBelow = (w: number) => rank < countBelowMiddle(points, w, nextBelow(w));
  const isAbove = (w: number) => rank >= countBelowMiddle(points, w, nextAbove(w));
  const [down, up] = [isBelow(start), isAbove(start)];
  if (!down && !up) return start;
  const end = down ? -INFINITE : INFINITE;
  let near = orderOf(start);
  let far = near;
  for (let step = 1n; far !== end; step *= 2n) {
    far = down ? largerOf(near - step, end) : -largerOf(-near - step, -end);
    if (far === end || (down ? !isBelow(numberAt(far)) : !isAbove(numberAt(far)))) break;
    near = far;
  }
  let [low, high] = down ? [far, near - 1n] : [near + 1n, far];
  while (low < high) {
    const middle = low + (high - low) / 2n;
    if (isAbove(numberAt(middle))) low = middle + 1n;
    else high = middle;
  }
  return numberAt(low);
}

/** Place of the first number that is none any more. */
const INFINITE = 0x7ff0000000000000n;

const largerOf = (a: bigint, b: bigint) => (a > b ? a : b);

const words = new DataView(new ArrayBuffer(8));

/** Place of a number among all floating-point numbers: neighbours differ by 1. */
function orderOf(value: number): bigint {
  words.setFloat64(0, value);
  const bits = words.getBigInt64(0);
  return bits >= 0n ? bits : -(bits & 0x7fffffffffffffffn);
}

function numberAt(order: bigint): number {
  words.setBigInt64(0, order >= 0n ? order : -order);
  return order >= 0n ? words.getFloat64(0) : -words.getFloat64(0);
}

const nextBelow = (value: number) => numberAt(orderOf(value) - 1n);
const nextAbove = (value: number) => numberAt(orderOf(value) + 1n);

/** Slopes below the middle between two neighbours: inversions of z = y - middle x, z in two words. */
function countBelowMiddle({ x, y }: OrderedPoints, w: number, neighbour: number): number {
  const n = x.length;
  const half = (neighbour - w) / 2;
  const [head, tail] = [new Float64Array(n), new Float64Array(n)];
  const wHigh = SPLITTER * w - (SPLITTER * w - w);
  for (let i = 0; i < n; i++) {
    const [a, b] = [x[i] ?? 0, y[i] ?? 0];
    const product = w * a;
    const aHigh = SPLITTER * a - (SPLITTER * a - a);
    const [wLow, aLow] = [w - wHigh, a - aHigh];
    const lost = wLow * aLow - (product - wHigh * aHigh - wLow * aHigh - wHigh * aLow);
    const sum = b - product;
    const part = sum - b;
    const missed = b - (sum - part) - (product + part);
    const rest = missed - lost - half * a;
    head[i] = sum + rest;
    tail[i] = rest - ((head[i] ?? 0) - sum);
  }
  let from = Uint32Array.from(x.keys());
  let into = new Uint32Array(n);
  let count = 0;
  const isLess = (p: number, q: number) => {
    const [one, other] = [head[p] ?? 0, head[q] ?? 0];
    return one < other || (one === other && (tail[p] ?? 0) < (tail[q] ?? 0));
  };
  for (let width = 1; width < n; width *= 2) {
    for (let start = 0; start < n; start += 2 * width) {
      const middle = Math.min(start + width, n);
      const end = Math.min(start + 2 * width, n);
      let [left, right] = [start, middle];
      for (let place = start; place < end; place++) {
        const takeRight = right < end && (left >= middle || isLess(from[right] ?? 0, from[left] ?? 0));
        if (takeRight) count += middle - left;
        into[place] = (takeRight ? from[right++] : from[left++]) ?? 0;
      }
    }
    [from, into] = [into, from];
  }
  return count;
}
