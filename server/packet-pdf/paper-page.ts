import type { PrintRequest } from './print-request.ts';

/** Sheet sizes in points: ISO 216 A4, 210 by 297 mm; Letter, 8.5 by 11 inches. */
const sheets = {
  a4: { name: 'A4', widthPt: 595.28, heightPt: 841.89 },
  letter: { name: 'LETTER', widthPt: 612, heightPt: 792 },
} as const;

export interface PaperPage {
  name: 'A4' | 'LETTER';
  /** left, top, right, bottom */
  margins: [number, number, number, number];
  /** what is left between the margins */
  widthPt: number;
  heightPt: number;
}

const SIDE_PT = 40;
const TOP_PT = 44;
const BOTTOM_PT = 48;

export function layPage(size: PrintRequest['size']): PaperPage {
  const { name, widthPt, heightPt } = sheets[size];
  return {
    name,
    margins: [SIDE_PT, TOP_PT, SIDE_PT, BOTTOM_PT],
    widthPt: widthPt - 2 * SIDE_PT,
    heightPt: heightPt - TOP_PT - BOTTOM_PT,
  };
}
