import type { LivesGroup } from '#server/contract/lives.ts';
import { bandOpacity, type inkOf } from './group-ink.ts';
import { type FittedUse, fittedUse, type LifeFitKind, placeOfShare } from './life-paper.ts';
import type { pixelsOf } from './lives-plot.ts';
import type { PaperRange } from './paper-range.ts';
import { polygon, polyline, type Shape } from './shapes.ts';

const steps = 60;

/** A place on the fitted line, with its bounds. */
export type LinePoint = FittedUse & { place: number };

export function fitLine(
  kind: LifeFitKind,
  group: LivesGroup,
  errors: number,
  { y }: PaperRange,
): LinePoint[] {
  const line: LinePoint[] = [];
  for (let i = 0; i <= steps; i++) {
    const place = y[0] + ((y[1] - y[0]) * i) / steps;
    const fitted = fittedUse(kind, group, shareAt(kind, place), errors);
    if (fitted !== null) line.push({ ...fitted, place });
  }
  return line;
}

/** The share whose place it is; the inverse of placing, found by halving for normal deviates. */
function shareAt(kind: LifeFitKind, place: number): number {
  if (kind === 'weibull') return -Math.expm1(-Math.exp(place));
  let [low, high] = [0, 1];
  for (let round = 0; round < 60; round++) {
    const middle = (low + high) / 2;
    if (placeOfShare(kind, middle) < place) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** What was seen and what lies beyond it, joined at the last point seen. */
export function splitAt(
  fit: readonly LinePoint[],
  last: number,
): Record<'seen' | 'beyond', readonly LinePoint[]> {
  const end = fit.filter(({ x }) => Math.log(x) <= last).length;
  return { seen: fit.slice(0, end), beyond: fit.slice(Math.max(0, end - 1)) };
}

interface Bounds {
  fit: readonly LinePoint[];
  /** the only fit on the paper */
  isAlone: boolean;
  range: readonly [number, number];
  pixels: ReturnType<typeof pixelsOf>;
  ink: ReturnType<typeof inkOf>;
}

/** The bounds of a fit: filled, or as thin edges where those of several groups would cover each other. */
export function drawBounds(id: string, { fit, isAlone, range, pixels, ink }: Bounds): Shape[] {
  if (fit.length < 2) return [];
  const { toX, toY } = pixels;
  const [from, to] = range;
  if (isAlone) {
    const cut = (x: number) => toX(Math.min(Math.max(Math.log(x), from), to));
    const points = [
      ...fit.map(({ low, place }): [number, number] => [cut(low), toY(place)]),
      ...fit.toReversed().map(({ high, place }): [number, number] => [cut(high), toY(place)]),
    ];
    return [polygon(id, 'band', points, { fill: ink.tone, opacity: bandOpacity(1) })];
  }
  const edge = (bound: 'low' | 'high') => {
    const runs: [number, number][][] = [[]];
    for (const point of fit) {
      const x = Math.log(point[bound]);
      if (x < from || x > to) runs.push([]);
      else runs.at(-1)?.push([toX(x), toY(point.place)]);
    }
    // Where a bound leaves the paper and comes back, the rest is a stub at the edge.
    return runs.reduce((longest, run) => (run.length > longest.length ? run : longest));
  };
  const dash = ink.dash === 'solid' ? {} : { lineDash: ink.dash };
  return (['low', 'high'] as const).flatMap((bound) => {
    const points = edge(bound);
    return points.length < 2
      ? []
      : [polyline(`${id}-${bound}`, 'band', points, { stroke: ink.tone, opacity: 0.55, ...dash })];
  });
}
