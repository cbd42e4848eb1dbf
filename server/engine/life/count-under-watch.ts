import type { ObservedLife } from './life-model.ts';

/**
 * How many lives were under watch at any mileage, and where those that ran on were last seen.
 *
 * n(x) = sum of counts with entry <= x < exit: at risk from after x until the next x. Where n changes at more than `most`
 * mileages, n at so many even steps from the first to the last of them.
 *
 * @param lives in any order
 * @param most  steps, and marks, that are told at the most; above 1
 * @returns steps, the last with n 0; mileages at which lives were last seen running, different ones, rising: with more than `most`, every so many
 * Source: own rule. Edges: no lives give no steps. Errors: throws on a limit below 2.
 * @example countUnderWatch([{ entry: 2, exit: 5, event: false, count: 3 }], 400) // steps [{ x: 2, n: 3 }, { x: 5, n: 0 }], runningAt [5]
 */
export function countUnderWatch(
  lives: readonly ObservedLife[],
  most: number,
): { steps: { x: number; n: number }[]; runningAt: number[] } {
  if (!(most >= 2)) throw new Error('countUnderWatch requires a limit of 2 or more');
  const places = new Float64Array(2 * lives.length);
  let size = 0;
  for (const { entry, exit } of lives) {
    places[size++] = entry;
    places[size++] = exit;
  }
  const changes = takeDistinct(places);
  const x = changes.length > most ? stepEvenly(changes, most) : changes;
  const change = new Float64Array(x.length + 1);
  for (const { entry, exit, count } of lives) {
    const first = countBelow(x, entry);
    const end = countBelow(x, exit);
    change[first] = (change[first] ?? 0) + count;
    change[end] = (change[end] ?? 0) - count;
  }
  let now = 0;
  const steps = Array.from(x, (one, j) => {
    now += change[j] ?? 0;
    return { x: one, n: now };
  });
  const running = takeDistinct(Float64Array.from(lives.flatMap(({ event, exit }) => (event ? [] : [exit]))));
  const every = Math.ceil(running.length / most);
  return { steps, runningAt: [...running].filter((_, i) => i % every === 0) };
}

function takeDistinct(values: Float64Array): Float64Array {
  values.sort();
  let size = 0;
  for (const one of values) if (size === 0 || one !== values[size - 1]) values[size++] = one;
  return values.subarray(0, size);
}

function stepEvenly(sorted: Float64Array, size: number): Float64Array {
  const [first, last] = [sorted[0] ?? 0, sorted[sorted.length - 1] ?? 0];
  return Float64Array.from({ length: size }, (_, k) =>
    k === size - 1 ? last : first + ((last - first) * k) / (size - 1),
  );
}

function countBelow(sorted: Float64Array, limit: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] ?? 0) < limit) low = middle + 1;
    else high = middle;
  }
  return low;
}
