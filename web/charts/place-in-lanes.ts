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

/** Room in a lane that is already filled. */
export interface Reserved {
  lane: number;
  fromPx: number;
  toPx: number;
}

interface Place {
  label: PlacedLabel;
  cost: number;
  spans: Reserved[];
}

const gapPx = 6;
const besideLinePx = 4;
const lineHalfPx = 3;
const costs = { leftOut: 60, lessImportant: 6, shorterText: 5, higherLane: 1, atLeft: 0.2 };
/** Enough for seven labels in three lanes; a search that would take longer gives its best so far. */
const mostSteps = 4000;

/**
 * Places labels, given in the order of their importance, so that none covers another nor the line of another.
 * Searches lanes, sides and wordings for the least cost; a label without a place is left out: its line stays.
 */
export function placeInLanes(
  labels: readonly LaneLabel[],
  lanes: number,
  bounds: { leftPx: number; rightPx: number },
  sizePx: number,
  reserved: readonly Reserved[] = [],
): PlacedLabel[] {
  // From the right: its labels take the lower lanes, and what begins further left runs on above them.
  const order = labels
    .map((label, rank) => ({
      places: listPlaces(label, lanes, bounds, sizePx),
      costToLeaveOut: Math.max(costs.leftOut - rank * costs.lessImportant, costs.lessImportant),
      xPx: label.xPx,
    }))
    .toSorted((a, b) => b.xPx - a.xPx);
  let best: { cost: number; placed: Place[] } = { cost: Number.POSITIVE_INFINITY, placed: [] };
  let steps = 0;

  const search = (
    index: number,
    cost: number,
    placed: readonly Place[],
    taken: readonly Reserved[],
  ): void => {
    if (cost >= best.cost || steps++ > mostSteps) return;
    const next = order[index];
    if (next === undefined) {
      best = { cost, placed: [...placed] };
      return;
    }
    for (const place of next.places)
      if (place.spans.every((span) => isFree(span, taken)))
        search(index + 1, cost + place.cost, [...placed, place], [...taken, ...place.spans]);
    search(index + 1, cost + next.costToLeaveOut, placed, taken);
  };
  search(0, 0, [], reserved);
  return best.placed.map((place) => place.label);
}

const isFree = (span: Reserved, taken: readonly Reserved[]): boolean =>
  taken.every((one) => one.lane !== span.lane || span.toPx <= one.fromPx || span.fromPx >= one.toPx);

function listPlaces(
  label: LaneLabel,
  lanes: number,
  bounds: { leftPx: number; rightPx: number },
  sizePx: number,
): Place[] {
  const { id, xPx } = label;
  const places: Place[] = [];
  label.texts.forEach((text, shorter) => {
    for (let lane = 0; lane < lanes; lane++)
      for (const align of ['left', 'right'] as const) {
        const reach = textWidth(text, sizePx) + besideLinePx + gapPx;
        const span =
          align === 'left'
            ? { lane, fromPx: xPx - lineHalfPx, toPx: xPx + reach }
            : { lane, fromPx: xPx - reach, toPx: xPx + lineHalfPx };
        if (span.fromPx < bounds.leftPx || span.toPx - gapPx > bounds.rightPx) continue;
        const stem = Array.from({ length: lane }, (_, below) => ({
          lane: below,
          fromPx: xPx - lineHalfPx,
          toPx: xPx + lineHalfPx,
        }));
        const cost =
          shorter * costs.shorterText + lane * costs.higherLane + (align === 'right' ? costs.atLeft : 0);
        places.push({ label: { id, xPx, text, align, lane }, cost, spans: [span, ...stem] });
      }
  });
  return places.toSorted((a, b) => a.cost - b.cost);
}
