import { foldName } from './fit-name.ts';
import type { Frame } from './frame.ts';
import { inkOf } from './group-ink.ts';
import type { Look } from './look.ts';
import { label, line, type Shape } from './shapes.ts';
import { spreadLabels } from './spread-labels.ts';
import { textWidth } from './text-width.ts';
import { roundTicks } from './ticks.ts';
import type { UseAxis } from './use-axis.ts';

export interface Box {
  left: number;
  top: number;
  width: number;
  height: number;
}

const leftPx = 44;
const topPx = 26;
const linePx = 17;
const besidePx = 10;
/** Names take no more of the width than this. */
const mostForNames = 0.3;

/** Names as they stand at the right of the plot, folded where they are long. */
export const foldNames = (names: readonly string[], widthPx: number, sizePx: number): string[][] =>
  names.map((name) => foldName(name, widthPx * mostForNames, sizePx));

/** What a name needs from top to bottom. */
export const nameHeight = (names: readonly string[][]): number =>
  linePx * Math.max(1, ...names.map((lines) => lines.length)) +
  (names.some((lines) => lines.length > 1) ? 4 : 0);

export function layLives(names: readonly string[], { widthPx, heightPx, look }: Frame, footPx: number) {
  const folded = foldNames(names, widthPx, look.smallPx);
  const widest = Math.max(0, ...folded.flat().map((line) => textWidth(line, look.smallPx)));
  const box: Box = {
    left: leftPx,
    top: topPx,
    width: Math.max(80, widthPx - leftPx - widest - besidePx - 6),
    height: Math.max(60, heightPx - topPx - footPx),
  };
  return { box, names: folded };
}

export const pixelsOf = (box: Box, x: readonly [number, number], y: readonly [number, number]) => ({
  toX: (value: number) => box.left + ((value - x[0]) / (x[1] - x[0])) * box.width,
  toY: (value: number) => box.top + box.height * (1 - (value - y[0]) / (y[1] - y[0])),
});

/** Round values of the reader's unit, in the unit of the data. */
export const ticksOfUse = (to: number, { one }: UseAxis, widthPx: number): number[] =>
  roundTicks(0, to / one, Math.max(2, widthPx / (widthPx < 420 ? 64 : 96))).map((shown) => shown * one);

export const chartText = (look: Look) => ({
  color: look.inkSoft,
  fontFamily: look.fontFamily,
  fontSize: look.smallPx,
});

interface AxisParts {
  look: Look;
  range: readonly [number, number];
  ticks: number[];
  say: (value: number) => string;
}

export const xAxisOf = ({ look, range, ticks, say }: AxisParts) => ({
  type: 'value' as const,
  min: range[0],
  max: range[1],
  splitLine: { show: false },
  axisTick: { customValues: ticks, lineStyle: { color: look.hairlineStrong } },
  axisLabel: { ...chartText(look), customValues: ticks, formatter: say },
  axisLine: { onZero: false, lineStyle: { color: look.hairlineStrong } },
});

export const yAxisOf = ({ look, range, ticks, say }: AxisParts) => ({
  type: 'value' as const,
  min: range[0],
  max: range[1],
  splitLine: { lineStyle: { color: look.hairline, opacity: 0.7 } },
  axisTick: { show: false, customValues: ticks },
  axisLabel: { ...chartText(look), customValues: ticks, formatter: say },
  axisLine: { show: false },
});

/** Ticks of use, worded in the reader's unit. */
export function sayTicksOfUse(ticks: readonly number[], axis: UseAxis): (x: number) => string {
  const step = ((ticks[1] ?? 0) - (ticks[0] ?? 0)) / axis.one;
  return (x) => axis.sayTick(Math.round((x / axis.one) * 1e6) / 1e6, step);
}

export const axisTitles = (words: { x: string; y: string }, box: Box, look: Look): Shape[] => [
  label('y-title', { text: words.y, x: 0, y: 9, color: look.inkSoft }, look),
  label(
    'x-title',
    {
      text: words.x,
      x: box.left + box.width,
      y: box.top + box.height + 31,
      color: look.inkSoft,
      align: 'right',
    },
    look,
  ),
];

export interface LineEnd {
  /** place among the groups, for tone and dash */
  i: number;
  /** lines of its name */
  text: readonly string[];
  xPx: number;
  yPx: number;
}

/** The name of each line at the right of the plot, with a thread to where the line ends. */
export function nameEnds(ends: readonly LineEnd[], box: Box, look: Look): Shape[] {
  const right = box.left + box.width;
  const tall = ends.map((end) => ({ ...end, heightPx: nameHeight([[...end.text]]) }));
  const bounds = { topPx: box.top, bottomPx: box.top + box.height - 6 };
  return spreadLabels(tall, linePx, bounds).flatMap(({ i, text, xPx, yPx, placedPx }) => {
    const { tone } = inkOf(i, look);
    return [
      line(`thread-${i}`, 'over', [Math.min(xPx + 4, right), yPx], [right + besidePx - 3, placedPx], {
        stroke: tone,
        opacity: 0.45,
        lineDash: [1, 3],
      }),
      label(
        `name-${i}`,
        { text: text.join('\n'), x: right + besidePx, y: placedPx, color: tone, strong: true },
        look,
      ),
    ];
  });
}
