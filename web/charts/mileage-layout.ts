import type { SetAsideReason } from '#server/contract/words.ts';
import { setAsideReasons } from '#server/contract/words.ts';
import type { KmRange, MileageView } from './mileage-view.ts';

export interface Rect {
  left: number;
  top: number;
  width: number;
  height: number;
}

export interface MileageLayout {
  /** On a narrow screen labels stand inside the plot; else in a gutter at its right. */
  isNarrow: boolean;
  lanes: number;
  laneHeight: number;
  main: Rect;
  /** Ticks of what was set aside, below the large plot. */
  rug: Rect;
  stripTitleY: number;
  strips: readonly Rect[];
  setAsideTitleY: number;
  setAside: readonly { reason: SetAsideReason; rect: Rect }[];
  heightPx: number;
}

const narrowBelowPx = 640;
/** A vehicle whose slip stays far below the limit needs no tall plot to show it. */
const calmShare = 0.4;

export function layMileage(view: MileageView, widthPx: number, mainHeightPx?: number): MileageLayout {
  const isNarrow = widthPx < narrowBelowPx;
  const left = isNarrow ? 30 : 44;
  const width = Math.max(80, widthPx - left - (isNarrow ? 6 : 168));
  const lanes = countLanes(view, isNarrow);
  const laneHeight = 18;
  const at = (top: number, height: number): Rect => ({ left, top, width, height });

  const main = at(lanes * laneHeight + 8, mainHeightPx ?? mainHeight(view, widthPx));
  const rug = at(main.top + main.height + 3, 9);
  let y = rug.top + rug.height + 44;
  const stripTitleY = y;
  y += 20;
  const strips = view.strips.map(() => {
    const top = y + (isNarrow ? 18 : 0);
    const strip = at(top, isNarrow ? 44 : 50);
    y = top + strip.height + (isNarrow ? 8 : 12);
    return strip;
  });
  const setAsideTitleY = y + 8;
  y = setAsideTitleY + 20;
  const setAside = presentReasons(view).map((reason) => {
    const top = y + (isNarrow ? 17 : 0);
    const row = { reason, rect: at(top, isNarrow ? 10 : 12) };
    y = top + row.rect.height + (isNarrow ? 9 : 5);
    return row;
  });
  return {
    isNarrow,
    lanes,
    laneHeight,
    main,
    rug,
    stripTitleY,
    strips,
    setAsideTitleY,
    setAside,
    heightPx: y + (setAside.length === 0 ? -24 : 0) + 26,
  };
}

/** From what there is to name in the whole of the mileage, so that zooming never moves the plot. */
function countLanes(view: MileageView, isNarrow: boolean): number {
  const marks = countMarks(view);
  if (isNarrow) return Math.min(Math.max(marks - 1, 1), 3);
  return marks <= 3 ? 1 : marks <= 4 ? 2 : 3;
}

const countMarks = ({ series, whole }: MileageView): number =>
  1 +
  (series.series[0]?.fits.some((fit) => fit.onset_km !== null) === true ? 1 : 0) +
  series.lives.filter((life) => life.fitted_km > whole.fromKm).length +
  series.fleet_events.length +
  (series.forecast === null ? 0 : 1);

function mainHeight(view: MileageView, widthPx: number): number {
  const tall = widthPx < narrowBelowPx ? 260 : widthPx > 1500 ? 400 : 340;
  const highest = Math.max(...view.shown.points.map((point) => point.slip_rpm), 0);
  return highest < view.topRpm * calmShare ? Math.round(tall * 0.7) : tall;
}

const presentReasons = (view: MileageView): SetAsideReason[] =>
  setAsideReasons.filter((reason) => view.series.set_aside.some((one) => one.reason === reason));

/** Pixel of a mileage; the same in the large plot and in every strip. */
export const scaleKm = (layout: MileageLayout, range: KmRange) => {
  const perKm = layout.main.width / (range.toKm - range.fromKm);
  return {
    toPx: (km: number) => layout.main.left + (km - range.fromKm) * perKm,
    toKm: (px: number) => range.fromKm + (px - layout.main.left) / perKm,
  };
};

export const scaleRpm = (rect: Rect, lowRpm: number, topRpm: number) => {
  const perRpm = rect.height / (topRpm - lowRpm);
  return (rpm: number) => rect.top + rect.height - (rpm - lowRpm) * perRpm;
};
