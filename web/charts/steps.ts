/** A value that holds from x on, with its bounds. */
export interface Step {
  x: number;
  value: number;
  low: number;
  high: number;
}

const mostDrawn = 1500;

/** Of very many steps every so many, each as it is; the first and the last stay. */
export function thinSteps<T>(steps: readonly T[]): readonly T[] {
  const every = Math.ceil(steps.length / mostDrawn);
  return every <= 1 ? steps : steps.filter((_, i) => i % every === 0 || i === steps.length - 1);
}

/** The step that holds at x; null before the first. */
export function stepAt<T extends { x: number }>(steps: readonly T[], x: number): T | null {
  let low = 0;
  let high = steps.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((steps[middle]?.x ?? 0) <= x) low = middle + 1;
    else high = middle;
  }
  return steps[low - 1] ?? null;
}

interface Pixels {
  toX: (x: number) => number;
  toY: (value: number) => number;
}

/** The band between the bounds as a closed figure in pixels, up to where the last step ends. */
export function bandOf(
  steps: readonly Step[],
  to: number,
  { toX, toY }: Pixels,
  top: number,
): [number, number][] {
  const upper: [number, number][] = [];
  const lower: [number, number][] = [];
  const cut = (value: number) => toY(Math.min(value, top));
  steps.forEach((step, i) => {
    const next = steps[i + 1]?.x ?? Math.max(to, step.x);
    upper.push([toX(step.x), cut(step.high)], [toX(next), cut(step.high)]);
    lower.push([toX(step.x), cut(step.low)], [toX(next), cut(step.low)]);
  });
  return [...upper, ...lower.toReversed()];
}
