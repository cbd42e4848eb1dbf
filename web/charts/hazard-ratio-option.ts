import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import { chartText } from './lives-plot.ts';
import type { NumbersTable } from './numbers.ts';
import { label, line, type Shape } from './shapes.ts';

/** How many times as often converters fail for one usual step of an exposure. */
export interface RatioRow {
  /** '10 °C hotter fluid' */
  name: string;
  ratio: number;
  low: number;
  high: number;
  p: number;
}

const rowPx = 46;
const footPx = 44;
const topPx = 8;
const sidePx = 16;
/** An interval beyond it leaves the scale with an arrow. */
const widest = 30;
const ticks = [0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20];

export const ratioHeight = (rows: number): number => topPx + rows * rowPx + footPx;

/** Dot and interval of each exposure on one logarithmic scale around 1; its name stands above. */
export function hazardRatioOption(
  rows: readonly RatioRow[],
  { look, widthPx, heightPx }: Frame,
): ChartOption {
  const reach = Math.max(
    2.2,
    ...rows.flatMap(({ low, high }) => [Math.min(1 / low, widest), Math.min(high, widest)]),
  );
  const edge = Math.log(reach * 1.1);
  const box = { left: sidePx, top: topPx, width: widthPx - 2 * sidePx, height: heightPx - topPx - footPx };
  const toX = (ratio: number) => box.left + box.width * (0.5 + Math.log(ratio) / (2 * edge));
  const shown = ticks.filter((tick) => Math.abs(Math.log(tick)) <= edge);
  const one = Math.round(toX(1)) + 0.5;
  return {
    grid: [{ id: 'ratios', ...box }],
    textStyle: { fontFamily: look.fontFamily },
    xAxis: [
      {
        type: 'value',
        min: -edge,
        max: edge,
        splitLine: { show: false },
        axisTick: { customValues: shown.map(Math.log), lineStyle: { color: look.hairlineStrong } },
        axisLabel: {
          ...chartText(look),
          customValues: shown.map(Math.log),
          formatter: (value: number) => String(Number(Math.exp(value).toPrecision(2))),
        },
        axisLine: { onZero: false, lineStyle: { color: look.hairlineStrong } },
      },
    ],
    yAxis: [{ type: 'value', min: 0, max: 1, show: false }],
    series: [],
    graphic: {
      elements: [
        line('one', 'band', [one, box.top], [one, box.top + box.height], { stroke: look.hairlineStrong }),
        ...rows.flatMap((row, i) => drawRow(row, i, { toX, box, edge, look })),
        label(
          'x-title',
          {
            text: 'times as often as one step less',
            x: box.left + box.width,
            y: heightPx - 9,
            color: look.inkSoft,
            align: 'right',
          },
          look,
        ),
      ],
    },
  };
}

interface Ground {
  toX: (ratio: number) => number;
  box: { left: number; top: number; width: number };
  edge: number;
  look: Frame['look'];
}

function drawRow(row: RatioRow, i: number, { toX, box, edge, look }: Ground): Shape[] {
  const y = box.top + i * rowPx + 32.5;
  const inScale = (ratio: number) => Math.min(Math.max(ratio, Math.exp(-edge)), Math.exp(edge));
  const [low, high] = [inScale(row.low), inScale(row.high)];
  const tone = row.low > 1 || row.high < 1 ? look.ink : look.inkSoft;
  const at = toX(inScale(row.ratio));
  const arrow = (x: number, away: number) =>
    line(`beyond-${away}-${i}`, 'over', [x, y - 4], [x + away * 5, y], { stroke: tone, lineWidth: 2 });
  return [
    label(`row-${i}`, { text: row.name, x: box.left, y: box.top + i * rowPx + 14, color: look.ink }, look),
    line(`interval-${i}`, 'over', [toX(low), y], [toX(high), y], { stroke: tone, lineWidth: 3 }),
    ...(row.high > high ? [arrow(toX(high) - 5, 1)] : []),
    ...(row.low < low ? [arrow(toX(low) + 5, -1)] : []),
    line(`dot-${i}`, 'over', [at, y - 8], [at, y + 8], { stroke: tone, lineWidth: 3 }),
  ];
}

export const listRatioNumbers = (rows: readonly RatioRow[]): NumbersTable[] => [
  {
    caption: 'How many times as often, for one usual step of an exposure',
    columns: [
      { title: 'step', kind: 'word' },
      { title: 'times', kind: 'figure' },
      { title: 'low', kind: 'figure' },
      { title: 'high', kind: 'figure' },
      { title: 'p', kind: 'figure' },
    ],
    rows: rows.map(({ name, ratio, low, high, p }) => [
      name,
      ...[ratio, low, high].map((value) => String(Number(value.toPrecision(4)))),
      p < 1e-4 ? p.toExponential(1) : p.toFixed(4),
    ]),
  },
];
