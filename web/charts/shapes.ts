/** Plain figures in pixels, beside and below what follows an axis. Each keeps its id from one drawing to the next. */
interface Base {
  id: string;
  z: number;
  silent: true;
}
type Point = [number, number];

interface Ink {
  fill?: string;
  stroke?: string;
  lineWidth?: number;
  lineDash?: number[];
  opacity?: number;
}

export interface RectShape extends Base {
  type: 'rect';
  shape: { x: number; y: number; width: number; height: number };
  style: Ink;
}
export interface LineShape extends Base {
  type: 'line';
  shape: { x1: number; y1: number; x2: number; y2: number };
  style: Ink;
}
export interface PolyShape extends Base {
  type: 'polygon' | 'polyline';
  shape: { points: Point[] };
  style: Ink;
}
export interface TextShape extends Base {
  type: 'text';
  x: number;
  y: number;
  style: {
    text: string;
    fill: string;
    fontSize: number;
    fontFamily: string;
    fontWeight: number;
    align: 'left' | 'center' | 'right';
    verticalAlign: 'top' | 'middle' | 'bottom';
    stroke: string;
    lineWidth: number;
  };
}
export type Shape = RectShape | LineShape | PolyShape | TextShape;

/** Below the grid lines, between them and the data, above the data. */
export const layers = { ground: -5, band: 1, over: 6, label: 8 } as const;
type Layer = keyof typeof layers;

export const rect = (id: string, layer: Layer, shape: RectShape['shape'], style: Ink): RectShape => ({
  type: 'rect',
  id,
  z: layers[layer],
  silent: true,
  shape,
  style,
});

export const line = (id: string, layer: Layer, from: Point, to: Point, style: Ink): LineShape => ({
  type: 'line',
  id,
  z: layers[layer],
  silent: true,
  shape: { x1: from[0], y1: from[1], x2: to[0], y2: to[1] },
  style: { lineWidth: 1, ...style },
});

export const polygon = (id: string, layer: Layer, points: Point[], style: Ink): PolyShape => ({
  type: 'polygon',
  id,
  z: layers[layer],
  silent: true,
  shape: { points },
  style,
});

export const polyline = (id: string, layer: Layer, points: Point[], style: Ink): PolyShape => ({
  type: 'polyline',
  id,
  z: layers[layer],
  silent: true,
  shape: { points },
  style: { fill: 'none', lineWidth: 1, ...style },
});

export interface Wording {
  text: string;
  x: number;
  y: number;
  color: string;
  align?: 'left' | 'center' | 'right';
  strong?: boolean;
}

/** Text with a rim of the paper's colour, so that it reads over dots and lines. */
export const label = (
  id: string,
  words: Wording,
  look: { paper: string; fontFamily: string; smallPx: number },
): TextShape => ({
  type: 'text',
  id,
  z: layers.label,
  silent: true,
  x: words.x,
  y: words.y,
  style: {
    text: words.text,
    fill: words.color,
    fontSize: look.smallPx,
    fontFamily: look.fontFamily,
    fontWeight: words.strong === true ? 600 : 400,
    align: words.align ?? 'left',
    verticalAlign: 'middle',
    stroke: look.paper,
    lineWidth: 3,
  },
});
