import { formatPercent } from '#web/format/format-percent.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import type { NumbersTable } from './numbers.ts';
import { label, line, rect, type Shape } from './shapes.ts';

/** A share of readings between two values; an open end is null. Values are in the reader's unit. */
export interface ShareBin {
  from: number | null;
  to: number | null;
  share: number;
}

export interface Shares {
  bins: readonly ShareBin[];
  /** Of the values: 'fluid, °C'. */
  unit: string;
  /** The value at the reference point, marked in the picture. */
  reference: number;
}

export const sayBin = ({ from, to }: ShareBin): string => {
  if (from === null) return `under ${to}`;
  return to === null ? `over ${from}` : `${from} to ${to}`;
};

const leftPx = 4;

/** Shares of readings by value, as upright bars that touch, each with its share on top; edges are named below. */
export function drawShares({ bins, unit, reference }: Shares, frame: Frame): ChartOption {
  const { look, widthPx, heightPx } = frame;
  const foot = heightPx - 42;
  const top = 24;
  const width = (widthPx - leftPx * 2) / Math.max(bins.length, 1);
  const most = Math.max(0.01, ...bins.map((bin) => bin.share));
  const shapes: Shape[] = bins.flatMap((bin, i) => {
    const height = (bin.share / most) * (foot - top);
    const x = leftPx + i * width;
    const bar = rect(
      `bar-${i}`,
      'band',
      { x: x + 0.5, y: foot - height, width: width - 1, height },
      {
        fill: look.inkSoft,
        opacity: 0.5,
      },
    );
    const share = label(
      `share-${i}`,
      {
        text: formatPercent(bin.share),
        x: x + width / 2,
        y: foot - height - 9,
        color: look.ink,
        align: 'center',
      },
      look,
    );
    return [bar, share];
  });
  bins.forEach((bin, i) => {
    if (bin.from === null) return;
    shapes.push(
      label(
        `edge-${i}`,
        {
          text: String(bin.from),
          x: leftPx + i * width,
          y: foot + 11,
          color: look.inkSoft,
          align: i === 0 ? 'left' : 'center',
        },
        look,
      ),
    );
  });
  const at = placeValue(bins, reference);
  if (at !== null) {
    const x = leftPx + at * width;
    shapes.push(line('reference', 'over', [x, foot], [x, foot + 5], { stroke: look.accent, lineWidth: 3 }));
  }
  return {
    graphic: {
      elements: [
        ...shapes,
        line('foot', 'over', [leftPx, foot], [widthPx - leftPx, foot], { stroke: look.hairlineStrong }),
        label(
          'unit',
          { text: unit, x: widthPx - leftPx, y: heightPx - 9, color: look.inkSoft, align: 'right' },
          look,
        ),
      ],
    },
  };
}

/** Position among the bins, in bins. */
function placeValue(bins: readonly ShareBin[], value: number): number | null {
  const index = bins.findIndex(
    (bin) => (bin.from ?? Number.NEGATIVE_INFINITY) <= value && value < (bin.to ?? Number.POSITIVE_INFINITY),
  );
  const bin = bins[index];
  if (bin === undefined) return null;
  if (bin.from === null || bin.to === null) return index + 0.5;
  return index + (value - bin.from) / (bin.to - bin.from);
}

export const listShareNumbers = (shares: Shares): NumbersTable[] => [
  {
    caption: `Share of usable readings by ${shares.unit}`,
    columns: [
      { title: shares.unit, kind: 'word' },
      { title: 'share', kind: 'figure' },
    ],
    rows: shares.bins.map((bin) => [sayBin(bin), formatPercent(bin.share)]),
  },
];
