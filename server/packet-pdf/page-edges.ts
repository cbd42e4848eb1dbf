import type { Content } from 'pdfmake/interfaces.js';
import { below } from './blocks.ts';
import type { Paper } from './paper.ts';
import { paperLook } from './paper-look.ts';

const edge = { fontSize: 8, color: paperLook.inkSoft };

/** Of the page's number at the right. */
const PLACE_PT = 70;

/** Sheets come apart on a bench: each says whose it is, and of how many. */
export function writeHeader({ packet, page }: Paper, at: number, of: number): Content {
  const [left, , right] = page.margins;
  return {
    margin: [left, 20, right, 0],
    columns: [
      {
        width: page.widthPt - PLACE_PT,
        text: `Unit ${packet.vehicle}   ·   packet ${packet.id}`,
        ...edge,
        bold: true,
      },
      { width: PLACE_PT, alignment: 'right', text: `page ${at} of ${of}`, ...edge },
    ],
  };
}

export function writeFooter({ page, clock }: Paper, madeAt: string): Content {
  const [left, , right] = page.margins;
  return {
    margin: [left, 5, right, 0],
    stack: [
      {
        canvas: [
          {
            type: 'line',
            x1: 0,
            y1: 0,
            x2: page.widthPt,
            y2: 0,
            lineWidth: 0.5,
            lineColor: paperLook.hairline,
          },
        ],
      },
      {
        ...below(4),
        columns: [
          {
            text: 'Slipdrift advises; it does not clear a vehicle as safe. The maker’s service information, local codes and licensed technicians decide.',
            ...edge,
          },
          { width: 175, alignment: 'right', text: `made ${clock.moment(madeAt)}, ${clock.zone}`, ...edge },
        ],
        columnGap: 16,
      },
    ],
  };
}
