import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import type { Look } from './look.ts';
import type { NumbersTable } from './numbers.ts';
import { label, line, rect, type Shape } from './shapes.ts';
import { spreadLabels } from './spread-labels.ts';
import { textWidth } from './text-width.ts';
import { roundTicks } from './ticks.ts';
import { axisTooltip } from './tooltip.ts';
import { listTrendLines, type TrendLine } from './trend-lines.ts';
import { type Dot, mostDots, sayFigure, type TrendView, thinPoints } from './trend-view.ts';

const topPx = 28;
const footPx = 46;
const linePx = 17;

export interface PlotBox {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

const styles = (
  look: Look,
): Record<TrendLine['id'], { color: string; width: number; type: 'solid' | number[] }> => ({
  theil_sen: { color: look.accent, width: 2.5, type: 'solid' },
  ols: { color: look.inkSoft, width: 1.5, type: [2, 3] },
  hinge: { color: look.ink, width: 2, type: 'solid' },
  level_shift: { color: look.ink, width: 1.5, type: [8, 4] },
});

/** The points with each model over them, named where it ends; the shade is where the rise may have begun. */
export function trendOption(view: TrendView, frame: Frame): ChartOption {
  const { look, widthPx, heightPx } = frame;
  const dots = thinPoints(view);
  const [first, last] = [view.x[0], view.x.at(-1)];
  if (first === undefined || last === undefined || last === first) return {};
  const lines = listTrendLines(view);
  const y = rangeOf(dots);
  const yTicks = roundTicks(y.low, y.high, Math.max(3, heightPx / 70));
  const left = 12 + Math.max(...yTicks.map((tick) => textWidth(sayFigure(tick), look.smallPx)));
  const right = 14 + Math.max(0, ...lines.map(({ name }) => textWidth(name, look.smallPx)));
  const box: PlotBox = { left, right: widthPx - right, top: topPx, bottom: heightPx - footPx };
  const xTicks = roundTicks(first, last, Math.max(2, (box.right - box.left) / 90));
  const toX = (x: number) => box.left + ((x - first) / (last - first)) * (box.right - box.left);
  const toY = (value: number) => box.bottom - ((value - y.low) / (y.high - y.low)) * (box.bottom - box.top);
  const text = { color: look.inkSoft, fontFamily: look.fontFamily, fontSize: look.smallPx };
  const ink = styles(look);
  return {
    grid: { left: box.left, right: widthPx - box.right, top: box.top, bottom: heightPx - box.bottom },
    textStyle: { fontFamily: look.fontFamily },
    tooltip: {
      ...axisTooltip(look),
      trigger: 'item',
      formatter: (item) => tellDot(dots[Array.isArray(item) ? -1 : item.dataIndex], view),
    },
    xAxis: {
      type: 'value',
      min: first,
      max: last,
      splitLine: { show: false },
      axisTick: { customValues: xTicks, lineStyle: { color: look.hairlineStrong } },
      axisLabel: { ...text, customValues: xTicks, formatter: sayTick, hideOverlap: true },
      axisLine: { onZero: false, lineStyle: { color: look.hairlineStrong } },
    },
    yAxis: {
      type: 'value',
      min: y.low,
      max: y.high,
      axisTick: { show: false, customValues: yTicks },
      axisLabel: { ...text, customValues: yTicks, formatter: sayFigure },
      splitLine: { show: false },
    },
    series: [
      ...drawBand(lines, look),
      drawSpread(dots, look),
      {
        type: 'scatter',
        id: 'dots',
        z: 3,
        symbolSize: dots.length > 300 ? 4 : 6,
        itemStyle: { color: look.inkSoft, opacity: dots.length > 300 ? 0.6 : 0.8 },
        data: dots.map((dot) => [dot.x, dot.y]),
      },
      ...lines.map(({ id, points }) => ({
        type: 'line' as const,
        id,
        z: 4,
        symbol: 'none',
        silent: true,
        lineStyle: ink[id],
        data: points,
      })),
    ],
    graphic: {
      elements: [
        ...yTicks.map((tick) =>
          line(`rule-${tick}`, 'ground', [box.left, toY(tick)], [box.right, toY(tick)], {
            stroke: look.hairline,
          }),
        ),
        ...drawBreak(view, box, toX, look),
        ...nameLines(lines, box, toY, look),
        label('y-title', { text: sayYTitle(view, dots), x: 0, y: 9, color: look.inkSoft }, look),
        label(
          'x-title',
          { text: view.xName, x: box.right, y: heightPx - 9, color: look.inkSoft, align: 'right' },
          look,
        ),
      ],
    },
  };
}

const sayTick = (value: number): string => sayFigure(value);

const sayYTitle = ({ yName }: TrendView, dots: readonly Dot[]): string => {
  const most = dots.reduce((n, dot) => Math.max(n, dot.n), 1);
  return most === 1 ? yName : `${yName}; a dot is the median of ${most} values, its bar holds 80 % of them`;
};

function rangeOf(dots: readonly Dot[]): { low: number; high: number } {
  const low = dots.reduce((least, dot) => Math.min(least, dot.low), Number.POSITIVE_INFINITY);
  const high = dots.reduce((most, dot) => Math.max(most, dot.high), Number.NEGATIVE_INFINITY);
  const margin = high > low ? 0.06 * (high - low) : Math.max(1, Math.abs(high)) * 0.1;
  return { low: low - margin, high: high + margin };
}

function drawBand(lines: readonly TrendLine[], look: Look) {
  const band = lines.find((one) => one.band !== undefined)?.band ?? [];
  const part = {
    type: 'line' as const,
    symbol: 'none',
    silent: true,
    stack: 'bounds',
    stackStrategy: 'all' as const,
    lineStyle: { opacity: 0 },
  };
  return [
    { ...part, id: 'bounds-low', data: band.map(({ x, low }) => [x, low]) },
    {
      ...part,
      id: 'bounds',
      areaStyle: { color: look.accent, opacity: 0.16 },
      data: band.map(({ x, low, high }) => [x, high - low]),
    },
  ];
}

/** Bars of dots that stand for several values, as one line with gaps. */
const drawSpread = (dots: readonly Dot[], look: Look) => ({
  type: 'line' as const,
  id: 'spread',
  z: 2,
  symbol: 'none',
  silent: true,
  lineStyle: { color: look.hairlineStrong, width: 1, opacity: 0.7 },
  data: dots.flatMap((dot): [number | null, number | null][] =>
    dot.n === 1
      ? []
      : [
          [dot.x, dot.low],
          [dot.x, dot.high],
          [null, null],
        ],
  ),
});

function drawBreak(
  { reply: { hinge } }: TrendView,
  box: PlotBox,
  toX: (x: number) => number,
  look: Look,
): Shape[] {
  if (hinge === null || hinge.break === null) return [];
  // An interval that is open reaches the end of the data.
  const from = hinge.low === null ? box.left : Math.max(box.left, toX(hinge.low));
  const to = hinge.high === null ? box.right : Math.min(box.right, toX(hinge.high));
  const at = toX(hinge.break);
  const height = box.bottom - box.top;
  const isLeft = at > (box.left + box.right) / 2;
  return [
    rect(
      'break-range',
      'ground',
      { x: from, y: box.top, width: to - from, height },
      { fill: look.paperSunk },
    ),
    line('break', 'band', [at, box.top], [at, box.bottom], { stroke: look.hairlineStrong }),
    label(
      'break-words',
      {
        text: `rise from ${sayFigure(hinge.break)}`,
        x: isLeft ? at - 5 : at + 5,
        y: box.top + 8,
        color: look.ink,
        align: isLeft ? 'right' : 'left',
      },
      look,
    ),
  ];
}

/** The name of each model at the right, as near as others let it to where the line ends. */
function nameLines(
  lines: readonly TrendLine[],
  box: PlotBox,
  toY: (y: number) => number,
  look: Look,
): Shape[] {
  const ink = styles(look);
  const ends = lines.map(({ id, name, points }) => ({ id, name, yPx: toY(points.at(-1)?.[1] ?? 0) }));
  const bounds = { topPx: box.top + 6, bottomPx: box.bottom - 4 };
  return spreadLabels(ends, linePx, bounds).map(({ id, name, placedPx }) =>
    label(`name-${id}`, { text: name, x: box.right + 8, y: placedPx, color: ink[id].color }, look),
  );
}

function tellDot(dot: Dot | undefined, { xName, yName }: TrendView): string {
  if (dot === undefined) return '';
  const lines = [`${encode(xName)} ${sayFigure(dot.x)}`, `${encode(yName)} ${sayFigure(dot.y)}`];
  if (dot.n > 1) lines.push(`median of ${dot.n}; 80 % in ${sayFigure(dot.low)} to ${sayFigure(dot.high)}`);
  return lines.join('<br>');
}

/** Names come from whoever pasted: the tooltip is markup. */
const encode = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

export function listTrendNumbers(view: TrendView): NumbersTable[] {
  const dots = thinPoints(view);
  const figure = (title: string) => ({ title, kind: 'figure' as const });
  const isThinned = view.x.length > mostDots;
  return [
    {
      caption: isThinned ? `Medians of runs of values, ${view.x.length} in all` : 'Points',
      columns: [
        figure(view.xName),
        figure(view.yName),
        ...(isThinned ? [figure('10 %'), figure('90 %'), figure('values')] : []),
      ],
      rows: dots.map((dot) =>
        [dot.x, dot.y, ...(isThinned ? [dot.low, dot.high, dot.n] : [])].map((value) => String(value)),
      ),
    },
  ];
}
