import type { Frame } from './frame.ts';
import { layMileage, type MileageLayout, scaleKm, scaleRpm } from './mileage-layout.ts';
import type { KmRange, MileageView } from './mileage-view.ts';

/** Everything that the parts of the mileage chart share when they draw. */
export interface MileagePlot {
  view: MileageView;
  range: KmRange;
  frame: Frame;
  layout: MileageLayout;
  toX: (km: number) => number;
  toY: (rpm: number) => number;
  rightPx: number;
  bottomPx: number;
  isInRange: (km: number) => boolean;
}

export function plotMileage(view: MileageView, range: KmRange, frame: Frame): MileagePlot {
  const layout = layMileage(view, frame.widthPx, frame.mainHeightPx);
  const { main } = layout;
  return {
    view,
    range,
    frame,
    layout,
    toX: scaleKm(layout, range).toPx,
    toY: scaleRpm(main, view.lowRpm, view.topRpm),
    rightPx: main.left + main.width,
    bottomPx: main.top + main.height,
    isInRange: (km) => km >= range.fromKm && km <= range.toKm,
  };
}
