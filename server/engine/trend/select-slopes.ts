import { countSlopes, type OrderedPoints, type SlopeCount } from './count-slopes.ts';
import { listSlopes } from './list-slopes.ts';
import { roundSlopeAtRank } from './round-slope-at-rank.ts';
import { selectInOrder } from './select-in-order.ts';

/** Slopes that may be held at once: 16 MiB. */
const MOST_HELD = 2 ** 21;
/** So many are listed gladly, and ten a point; more are narrowed down first. */
const FEW = 2 ** 15;
/** Pairs that are drawn to know about where a rank lies: up to 4 MiB. */
const MOST_DRAWN = 2 ** 19;
/** Half width of the search about a rank, in standard errors of the drawn pairs. */
const REACH = 2.4;
/** A search takes some 10 rounds; one that overflows must end too. */
const MOST_ROUNDS = 200;

/**
 * Slopes at given places in the order of all pairs with different x, without forming all of them.
 *
 * Pairs drawn at random, from a fixed seed, tell about where a rank lies. {@link countSlopes} at two of their slopes
 * then shows that it does, and narrows the search, until the pairs between are few enough for {@link listSlopes}; the
 * rest is selectInOrder. A slope that more pairs share than are held is told by its counts, if it is 0, or by
 * {@link roundSlopeAtRank}.
 *
 * @param points in order of x, then of y
 * @param ranks  places from 0 for the smallest slope
 * @param held   how many slopes may be held, 2^21
 * @returns one slope for each place: exactly the numbers (y_j - y_i) / (x_j - x_i) that sorting all of them would put
 * there, for every outcome of the draw. Only where more than `held` slopes cannot be told apart in floating-point
 * numbers, as on a line without scatter, may they differ by 2 units in the last place: see roundSlopeAtRank
 * Source: Matousek (1991), Inform. Process. Lett. 39, 183-187, randomised; Cole, Salowe, Steiger and Szemeredi (1989),
 * SIAM J. Comput. 18, 792-810 (both from memory). Variant: what is too near to tell is listed, not guessed.
 * Cost O(n log n) expected, memory O(n + held). Edges: where z overflows (values beyond 1e150) NaN may come.
 * Errors: throws on a rank outside the pairs.
 * @example selectSlopes({ x: Float64Array.of(0, 1, 2), y: Float64Array.of(0, 1, 5) }, [1]) // [2.5]
 */
export function selectSlopes(points: OrderedPoints, ranks: readonly number[], held = MOST_HELD): number[] {
  const pairs = countPairs(points.x);
  if (!ranks.every((rank) => Number.isInteger(rank) && rank >= 0 && rank < pairs)) {
    throw new Error('selectSlopes requires ranks within the pairs');
  }
  const few = Math.min(held, Math.max(FEW, 10 * points.x.length));
  if (pairs <= few) return selectInOrder(listAll(points, pairs), ranks);
  const drawn = drawSlopes(points, Math.min(MOST_DRAWN, 10 * points.x.length));
  const counted = new Map<number, SlopeCount>([
    [Number.NEGATIVE_INFINITY, { below: 0, notAbove: 0 }],
    [Number.POSITIVE_INFINITY, { below: pairs, notAbove: pairs }],
  ]);
  const search: Search = { points, held, few, drawn, counted, listed: null };
  return ranks.map((rank) => selectOne(search, rank));
}

interface Search {
  points: OrderedPoints;
  held: number;
  few: number;
  /** slopes of drawn pairs, rising */
  drawn: Float64Array;
  /** what was counted so far serves every rank */
  counted: Map<number, SlopeCount>;
  /** what was listed last: the next rank is often a neighbour */
  listed: { low: number; high: number; slopes: Float64Array } | null;
}

/** Two counted values strictly between which a slope lies. */
interface Span {
  low: number;
  high: number;
}

function countAt({ points, counted }: Search, value: number): SlopeCount {
  const known = counted.get(value) ?? countSlopes(points, value);
  counted.set(value, known);
  return known;
}

const countWithin = (search: Search, { low, high }: Span): number =>
  countAt(search, high).notAbove - countAt(search, low).below;

function selectOne(search: Search, rank: number): number {
  let span = findSpan(search, rank);
  for (let round = 0; countWithin(search, span) > search.few; round++) {
    if (round === MOST_ROUNDS) return Number.NaN;
    const tied = narrow(search, rank, span);
    if (tied === null) span = findSpan(search, rank);
    else if (tied === 0) return 0;
    else {
      const near = bracket(search, rank, tied);
      if (near === null) return roundSlopeAtRank(search.points, rank, tied);
      span = near;
      break;
    }
  }
  return pickFrom(search, rank, span);
}

/** The narrowest span that is known to hold the slope of this rank. */
function findSpan({ counted }: Search, rank: number): Span {
  let [low, high] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (const [value, { below, notAbove }] of counted) {
    if (rank >= notAbove) low = Math.max(low, value);
    else if (rank < below) high = Math.min(high, value);
  }
  return { low, high };
}

/** Counts at drawn slopes on both sides of the rank; answers one that cannot be told from the slope sought. */
function narrow(search: Search, rank: number, { low, high }: Span): number | null {
  const share = (rank - countAt(search, low).below) / countWithin(search, { low, high });
  for (const value of chooseProbes(search.drawn, low, high, share)) {
    const { below, notAbove } = countAt(search, value);
    if (rank >= below && rank < notAbove) return value;
  }
  return null;
}

function pickFrom(search: Search, rank: number, { low, high }: Span): number {
  if (search.listed === null || search.listed.low !== low || search.listed.high !== high) {
    const slopes = listSlopes(search.points, low, high, countWithin(search, { low, high }));
    search.listed = { low, high, slopes };
  }
  const [slope] = selectInOrder(search.listed.slopes, [rank - countAt(search, low).below]);
  return slope ?? Number.NaN;
}

/** Drawn slopes a little below and above the place sought; the middle number where none is left between. */
function chooseProbes(drawn: Float64Array, low: number, high: number, share: number): number[] {
  const first = findFirst(drawn, (one) => one > low);
  const last = findFirst(drawn, (one) => one >= high) - 1;
  const count = last - first + 1;
  if (count <= 0) return [middleNumber(low, high)];
  const place = first + Math.min(1, Math.max(0, share)) * (count - 1);
  const reach = (REACH / 2) * Math.sqrt(count) + 1;
  const probes = [Math.floor(place - reach), Math.ceil(place + reach)].filter((i) => i >= first && i <= last);
  return (probes.length > 0 ? probes : [Math.round(place)]).map((i) => drawn[i] ?? 0);
}

/** A span close about a value, if it holds no more slopes than may be held. */
function bracket(search: Search, rank: number, value: number): Span | null {
  const { below, notAbove } = countAt(search, value);
  for (let bits = 48; bits > 16 && notAbove - below <= search.held; bits -= 4) {
    const step = Math.abs(value) * 2 ** -bits;
    const span = { low: value - step, high: value + step };
    if (rank >= countAt(search, span.low).notAbove && rank < countAt(search, span.high).below)
      return countWithin(search, span) <= search.held ? span : null;
  }
  return null;
}

/** Half way between two numbers; in the exponent while they are far apart, so that the search ends. */
function middleNumber(low: number, high: number): number {
  if (low < 0 && high > 0) return 0;
  if (low < 0) return -middleNumber(-high, -low);
  const [least, largest] = [Math.max(low, Number.MIN_VALUE), Math.min(high, Number.MAX_VALUE)];
  if (largest / least > 4) return Math.sqrt(least) * Math.sqrt(largest);
  return least + (largest - least) / 2;
}

function findFirst(sorted: Float64Array, is: (value: number) => boolean): number {
  let [from, to] = [0, sorted.length];
  while (from < to) {
    const middle = (from + to) >> 1;
    if (is(sorted[middle] ?? 0)) to = middle;
    else from = middle + 1;
  }
  return from;
}

function countPairs(x: Float64Array): number {
  let pairs = 0;
  let tied = 0;
  for (let i = 1; i < x.length; i++) {
    tied = x[i] === x[i - 1] ? tied + 1 : 0;
    pairs += i - tied;
  }
  return pairs;
}

function listAll({ x, y }: OrderedPoints, pairs: number): Float64Array {
  const slopes = new Float64Array(pairs);
  let found = 0;
  for (let i = 0; i < x.length; i++) {
    for (let j = i + 1; j < x.length; j++) {
      const dx = (x[j] ?? 0) - (x[i] ?? 0);
      if (dx > 0) slopes[found++] = ((y[j] ?? 0) - (y[i] ?? 0)) / dx;
    }
  }
  return slopes;
}

/** Slopes of random pairs, rising. The seed is fixed: the same question always takes the same way. */
function drawSlopes({ x, y }: OrderedPoints, count: number): Float64Array {
  const slopes = new Float64Array(count);
  let found = 0;
  let state = 20_240_229;
  // Mulberry32 (T. Ettinger, public domain; from memory): plain, and good enough to spread pairs.
  const draw = () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return Math.floor((((t ^ (t >>> 14)) >>> 0) / 4_294_967_296) * x.length);
  };
  // Ties in x can make pairs with different x rare: then fewer are drawn, which costs time and no digit.
  for (let tries = 0; found < count && tries < 2 * count; tries++) {
    const [i, j] = [draw(), draw()];
    const slope = ((y[j] ?? 0) - (y[i] ?? 0)) / ((x[j] ?? 0) - (x[i] ?? 0));
    if (x[i] !== x[j] && !Number.isNaN(slope)) slopes[found++] = slope;
  }
  return slopes.subarray(0, found).sort();
}
