import type { AtlasPlane } from '#server/contract/atlas.ts';
import type { Frame } from './frame.ts';

export type AtlasAxis = 'command' | 'fluid';

export const pads = { leftPx: 40, rightPx: 52, topPx: 30, footPx: 46 };

/** Drawn from above to below. */
export const quantiles = [
  { key: 'p95', text: '95 %', width: 1, tone: 'inkSoft' },
  { key: 'p75', text: '75 %', width: 1.25, tone: 'inkSoft' },
  { key: 'p50', text: 'middle', width: 2.25, tone: 'ink' },
  { key: 'p25', text: '25 %', width: 1.25, tone: 'inkSoft' },
  { key: 'p05', text: '5 %', width: 1, tone: 'inkSoft' },
] as const;

export interface AtlasAsked {
  axis: AtlasAxis;
  plane: AtlasPlane;
  limitRpm: number;
  /** the one on top */
  vehicle: string | null;
}

export interface AtlasPlot {
  left: number;
  right: number;
  top: number;
  foot: number;
  xFrom: number;
  xTo: number;
  slipTo: number;
  toX: (x: number) => number;
  toY: (rpm: number) => number;
}

export function measurePlot({ plane }: AtlasAsked, { widthPx, heightPx }: Frame): AtlasPlot {
  const [xFrom = 0, xTo = 1] = [plane.x_edges[0], plane.x_edges.at(-1)];
  const slipTo = plane.slip_edges.at(-1) ?? 1;
  const { leftPx: left, topPx: top } = pads;
  const [right, foot] = [widthPx - pads.rightPx, heightPx - pads.footPx];
  return {
    ...{ left, right, top, foot, xFrom, xTo, slipTo },
    toX: (x) => left + ((x - xFrom) / (xTo - xFrom)) * (right - left),
    toY: (rpm) => foot - (Math.min(Math.max(rpm, 0), slipTo) / slipTo) * (foot - top),
  };
}
