import type { LivesGroup } from '#server/contract/lives.ts';
import { fittedUse, type LifeFitKind, paperPoints, placeOfShare } from './life-paper.ts';
import { lastSeen } from './survival-steps.ts';

/** Shares failed that stand beside the paper, where they are in its range. */
const shares = [
  1e-4, 5e-4, 0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.3, 0.5, 0.7, 0.8, 0.9, 0.95, 0.99, 0.999,
];

export interface PaperRange {
  /** logarithms of use */
  x: [number, number];
  /** places of shares */
  y: [number, number];
  /** shares failed, least and most */
  failed: [number, number];
}

/** Holds every mark, and B10 and B50 of each fit where they are not far beyond what was seen. */
export function paperRange(kind: LifeFitKind, groups: readonly LivesGroup[]): PaperRange | null {
  const points = groups.flatMap((group) => paperPoints(group));
  if (points.length === 0) return null;
  const seen = Math.max(...groups.map(lastSeen));
  const ends = groups.flatMap((group) =>
    [0.1, 0.5].flatMap((share) => fittedUse(kind, group, share, 0)?.x ?? []),
  );
  const reached = ends.filter((x) => x <= 2 * seen);
  const from = Math.min(...points.map(({ x }) => x), ...reached);
  const to = Math.max(seen, ...points.map(({ x }) => x), ...reached);
  const least = Math.max(1e-5, Math.min(0.05, ...points.map(({ failed }) => failed)) * 0.7);
  const most = Math.min(0.9995, Math.max(0.55, Math.max(...points.map(({ failed }) => failed)) * 1.02));
  return {
    x: [Math.log(from * 0.8), Math.log(to * 1.1)],
    y: [placeOfShare(kind, least), placeOfShare(kind, most)],
    failed: [least, most],
  };
}

/** As many as there is room for; a tenth and a half always. */
export function shareTicks(kind: LifeFitKind, { failed, y }: PaperRange, heightPx: number): number[] {
  const gap = ((y[1] - y[0]) / heightPx) * 22;
  const kept: number[] = [];
  const inRange = shares.filter((share) => share >= failed[0] && share <= failed[1]);
  for (const share of [0.1, 0.5, 0.01, 0.9, ...inRange])
    if (inRange.includes(share) && !kept.includes(share))
      if (kept.every((one) => Math.abs(placeOfShare(kind, one) - placeOfShare(kind, share)) >= gap))
        kept.push(share);
  return kept.toSorted((a, b) => a - b);
}

/** Round values of the reader's unit between two, far enough apart on a logarithmic axis. */
export function logTicks(from: number, to: number, one: number, widthPx: number): number[] {
  const steps =
    to / from > 30 ? [1, 2, 5] : to / from > 6 ? [1, 2, 3, 5, 7] : [1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9];
  const gap = (Math.log(to / from) / widthPx) * 46;
  const ticks: number[] = [];
  for (let size = 10 ** Math.floor(Math.log10(from / one)); size <= to / one && ticks.length < 60; size *= 10)
    for (const step of steps) {
      const x = Number((step * size).toPrecision(12)) * one;
      const last = ticks.at(-1);
      if (x >= from && x <= to && (last === undefined || Math.log(x / last) >= gap)) ticks.push(x);
    }
  return ticks;
}
