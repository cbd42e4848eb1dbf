import { textWidth } from './text-width.ts';

/** A label that stands above the plot, on a line that runs down into it. */
export interface LaneLabel {
  id: string;
  xPx: number;
  /** The wordings that would do, best first. */
  texts: readonly string[];
}

export interface PlacedLabel {
  id: string;
  xPx: number;
  text: string;
  align: 'left' | 'right';
  /** 0 is the lane next to the plot. */
  lane: number;
}

/** Room that something else already fills. */
export interface Reserved {
  lane: number;
  fromPx: number;
  toPx: number;
}

interface Span {
  from: number;
  to: number;
}

const gapPx = 6;
const besideLinePx = 4;
const lineHalfPx = 3;

/**
 * Places labels, the most important first, so that none covers another nor the line of another. Tries the
 * lowest lane, either side, then shorter wordings; what finds no place is left out: its line and the numbers stay.
 */
export function placeInLanes(
  labels: readonly LaneLabel[],
  lanes: number,
  bounds: { leftPx: number; rightPx: number },
  sizePx: number,
  reserved: readonly Reserved[] = [],
): PlacedLabel[] {
  const taken: Span[][] = Array.from({ length: lanes }, (_, lane) =>
    reserved.filter((one) => one.lane === lane).map((one) => ({ from: one.fromPx, to: one.toPx })),
  );
  const placed: PlacedLabel[] = [];
  const isFree = (lane: number, span: Span) =>
    (taken[lane] ?? []).every((one) => span.to <= one.from || span.from >= one.to);

  for (const label of labels) {
    const found = findPlace(label);
    if (found === null) continue;
    placed.push(found.label);
    taken[found.label.lane]?.push(found.span);
    for (let below = 0; below < found.label.lane; below++) taken[below]?.push(lineSpan(label));
  }
  return placed;

  function findPlace(label: LaneLabel): { label: PlacedLabel; span: Span } | null {
    for (const text of label.texts)
      for (let lane = 0; lane < lanes; lane++)
        for (const align of ['left', 'right'] as const) {
          const span = textSpan(label.xPx, text, align);
          if (span.from < bounds.leftPx || span.to > bounds.rightPx) continue;
          if (!isFree(lane, span)) continue;
          if (
            Array.from({ length: lane }, (_, below) => below).some((below) => !isFree(below, lineSpan(label)))
          )
            continue;
          return { label: { id: label.id, xPx: label.xPx, text, align, lane }, span };
        }
    return null;
  }

  function textSpan(xPx: number, text: string, align: 'left' | 'right'): Span {
    const width = textWidth(text, sizePx) + besideLinePx;
    return align === 'left'
      ? { from: xPx - lineHalfPx, to: xPx + width + gapPx }
      : { from: xPx - width - gapPx, to: xPx + lineHalfPx };
  }
}

const lineSpan = (label: LaneLabel): Span => ({ from: label.xPx - lineHalfPx, to: label.xPx + lineHalfPx });
