import fc from 'fast-check';

/** Points in order of x, then of y. */
export interface Series {
  x: Float64Array;
  y: Float64Array;
}

export function inOrder(x: readonly number[], y: readonly number[]): Series {
  const order = x.map((_, i) => i).sort((a, b) => (x[a] ?? 0) - (x[b] ?? 0) || (y[a] ?? 0) - (y[b] ?? 0));
  return {
    x: Float64Array.from(order, (i) => x[i] ?? 0),
    y: Float64Array.from(order, (i) => y[i] ?? 0),
  };
}

/** The plain way: the slope of every pair with different x. */
export function listEverySlope({ x, y }: Series): number[] {
  const slopes: number[] = [];
  for (let i = 0; i < x.length; i++) {
    for (let j = i + 1; j < x.length; j++) {
      const dx = (x[j] ?? 0) - (x[i] ?? 0);
      if (dx > 0) slopes.push(((y[j] ?? 0) - (y[i] ?? 0)) / dx);
    }
  }
  return slopes;
}

/** Without numbers so small that slopes pass the largest number. */
const plain = fc.double({ min: -100, max: 100, noNaN: true }).map((one) => (Math.abs(one) < 1e-9 ? 0 : one));
const whole = fc.integer({ min: -20, max: 20 });
const tenths = whole.map((one) => one / 10);
/** Close to one place: slopes of some 1e9. */
const crowded = fc.integer({ min: 0, max: 50 }).map((one) => 1 + one * 1e-9);
const constant = fc.constant(3.7);

const seriesOf = (x: fc.Arbitrary<number>, y: fc.Arbitrary<number>, arrange = inOrder) =>
  fc
    .array(fc.tuple(x, y), { minLength: 3, maxLength: 45 })
    .filter((points) => new Set(points.map(([one]) => one)).size > 1)
    .map((points) =>
      arrange(
        points.map(([one]) => one),
        points.map(([, one]) => one),
      ),
    );

const rising = (x: readonly number[], y: readonly number[]) => {
  const up = (a: number, b: number) => a - b;
  return inOrder(x.toSorted(up), y.toSorted(up));
};
const straight = (x: readonly number[]) =>
  inOrder(
    x,
    x.map((one) => 0.3 * one + 0.1),
  );

/** Series of every kind that makes slopes hard to tell apart. */
export const anySeries: fc.Arbitrary<Series> = fc.oneof(
  seriesOf(plain, plain),
  seriesOf(whole, plain),
  seriesOf(plain, whole),
  seriesOf(tenths, tenths),
  seriesOf(crowded, plain),
  seriesOf(plain, plain, rising),
  seriesOf(tenths, plain, straight),
  seriesOf(plain, constant),
);

/** Whole numbers, the slopes of which are rounded once only. */
export const wholeSeries: fc.Arbitrary<Series> = fc.oneof(
  seriesOf(whole, whole),
  seriesOf(whole, whole, rising),
  seriesOf(whole, fc.constant(4)),
);
