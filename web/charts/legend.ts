import type { Look } from './look.ts';
import { textWidth } from './text-width.ts';

/** A mark of the drawing, at its size there. */
export interface LegendMark {
  kind: 'fill' | 'outline';
  widthPx: number;
  heightPx: number;
  color: string;
}

/** What marks that cannot be named where they stand mean. */
export interface LegendEntry {
  marks: readonly LegendMark[];
  words: string;
}

export type ReadLegend = (look: Look) => readonly LegendEntry[];

const markGapPx = 4;
const wordsGapPx = 6;
const entryGapPx = 18;

export interface PlacedEntry extends LegendEntry {
  /** of each mark, in pixels from the left */
  marksPx: readonly number[];
  wordsPx: number;
  line: number;
}

/** Entries beside each other, on as many lines as they need. */
export function layLegend(entries: readonly LegendEntry[], sizePx: number, widthPx: number): PlacedEntry[] {
  let [x, line] = [0, 0];
  return entries.map((entry) => {
    const marks = entry.marks.reduce((sum, mark) => sum + mark.widthPx + markGapPx, 0);
    const width = marks - markGapPx + wordsGapPx + textWidth(entry.words, sizePx);
    if (x > 0 && x + width > widthPx) {
      x = 0;
      line++;
    }
    let left = x;
    const marksPx = entry.marks.map((mark) => {
      const at = left;
      left += mark.widthPx + markGapPx;
      return at;
    });
    x += width + entryGapPx;
    return { ...entry, marksPx, wordsPx: left - markGapPx + wordsGapPx, line };
  });
}

/** A mark as a rectangle of SVG, about a middle. */
export const shapeMark = ({ kind, widthPx, heightPx, color }: LegendMark, x: number, middle: number) =>
  kind === 'fill'
    ? { x, y: middle - heightPx / 2, width: widthPx, height: heightPx, fill: color }
    : {
        x: x + 0.75,
        y: middle - heightPx / 2 + 0.75,
        width: widthPx - 1.5,
        height: heightPx - 1.5,
        fill: 'none',
        stroke: color,
        strokeWidth: 1.5,
      };
