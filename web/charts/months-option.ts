import type { StoredMonth } from '#server/contract/storage.ts';
import { bytesUnit, formatBytes } from '#web/format/format-bytes.ts';
import { formatDayAndYear, formatMonthAndYear } from '#web/format/format-day.ts';
import { formatTenths, formatWhole, noFigure } from '#web/format/format-number.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import type { NumbersTable } from './numbers.ts';
import { label } from './shapes.ts';
import { roundTicks } from './ticks.ts';
import { axisTooltip, firstIndex } from './tooltip.ts';

/** A month of the axis; null where nothing is stored of it. */
export interface MonthBin {
  month: string;
  stored: StoredMonth | null;
}

const stripPx = 110;
const titlePx = 30;
const footPx = 46;
const leftPx = 52;
const rightPx = 8;
const million = 1_000_000;

export const monthsHeightPx = 2 * (stripPx + titlePx) + footPx;

/** Readings and bytes by month, a strip each: dark what is counted, pale what is an estimate, soft what goes next. */
export function monthsOption(bins: readonly MonthBin[], next: string | null, { look }: Frame): ChartOption {
  const text = { color: look.inkSoft, fontFamily: look.fontFamily, fontSize: look.smallPx };
  const rowsOf = ({ stored }: MonthBin) => stored?.rows ?? 0;
  const bytesOf = ({ stored }: MonthBin) => (stored === null ? 0 : stored.heap_bytes + stored.index_bytes);
  const mostRows = Math.max(1, ...bins.map(rowsOf));
  const unit = bytesUnit(Math.max(1, ...bins.map(bytesOf)));
  const rowSize = mostRows >= million ? million : 1;
  const strips = [
    { id: 'rows', of: rowsOf, size: rowSize, most: mostRows, words: sayRows(bins, rowSize) },
    {
      id: 'bytes',
      of: bytesOf,
      size: unit.size,
      most: Math.max(1, ...bins.map(bytesOf)),
      words: `On disk, ${unit.name}: ${formatBytes(bins.reduce((sum, bin) => sum + bytesOf(bin), 0))} in all`,
    },
  ].map((strip, i) => ({
    ...strip,
    ...scaleTo(strip.most / strip.size),
    topPx: titlePx + i * (stripPx + titlePx),
  }));
  return {
    textStyle: { fontFamily: look.fontFamily },
    grid: strips.map(({ topPx }) => ({ left: leftPx, right: rightPx, top: topPx, height: stripPx })),
    tooltip: { ...axisTooltip(look), formatter: (items) => tellBin(bins[firstIndex(items)]) },
    xAxis: strips.map((_, i) => ({
      type: 'category' as const,
      gridIndex: i,
      data: bins.map(({ month, stored }) =>
        month === next && stored?.drops_on != null
          ? `${formatMonthAndYear(month)}\ngoes next`
          : formatMonthAndYear(month),
      ),
      axisTick: { show: false },
      axisLine: { lineStyle: { color: look.hairlineStrong } },
      axisLabel: { ...text, lineHeight: 17, show: i === 1, hideOverlap: true },
    })),
    yAxis: strips.map(({ top, step }, i) => ({
      type: 'value' as const,
      gridIndex: i,
      min: 0,
      max: top,
      interval: step,
      axisLabel: { ...text, formatter: (value: number) => formatTick(value) },
      splitLine: { lineStyle: { color: look.hairline } },
    })),
    series: strips.map(({ id, of, size }, i) => ({
      id,
      type: 'bar' as const,
      silent: true,
      xAxisIndex: i,
      yAxisIndex: i,
      barWidth: '70%',
      barMaxWidth: 48,
      data: bins.map((bin) => ({
        value: of(bin) / size,
        itemStyle: {
          color: bin.month === next ? look.inkSoft : look.accent,
          opacity: bin.stored?.estimated === true && id === 'rows' ? 0.55 : 1,
        },
      })),
    })),
    graphic: {
      elements: strips.map(({ id, words, topPx }) =>
        label(`${id}-words`, { text: words, x: leftPx, y: topPx - 12, color: look.ink, strong: true }, look),
      ),
    },
  };
}

function sayRows(bins: readonly MonthBin[], size: number): string {
  const sum = bins.reduce((all, { stored }) => all + (stored?.rows ?? 0), 0);
  const isEstimate = bins.some(({ stored }) => stored?.estimated === true);
  return size === 1
    ? `Readings: ${isEstimate ? 'about ' : ''}${formatWhole(sum)} in all`
    : `Readings, millions: ${isEstimate ? 'about ' : ''}${formatTenths(sum / size)} in all`;
}

function scaleTo(most: number): { top: number; step: number } {
  const [, step = most] = roundTicks(0, most * 1.02, 3);
  return { top: step * Math.ceil(most / step), step };
}

const formatTick = (value: number): string =>
  Number.isInteger(value) ? formatWhole(value) : String(Number(value.toPrecision(3)));

function tellBin(bin: MonthBin | undefined): string {
  if (bin === undefined) return '';
  const { month, stored } = bin;
  const lines = [`<b>${formatMonthAndYear(month)}</b>`];
  if (stored === null) return [...lines, 'nothing stored'].join('<br>');
  lines.push(
    `${stored.estimated ? 'about ' : ''}${formatWhole(stored.rows)} readings`,
    `${formatBytes(stored.heap_bytes)} and ${formatBytes(stored.index_bytes)} of index`,
  );
  if (stored.drops_on !== null) lines.push(`dropped on ${formatDayAndYear(stored.drops_on)}`);
  return lines.join('<br>');
}

export const listMonthNumbers = (bins: readonly MonthBin[]): NumbersTable[] => [
  {
    caption: 'Readings by month',
    columns: [
      { title: 'month', kind: 'word' },
      { title: 'readings', kind: 'figure' },
      { title: 'counted', kind: 'word' },
      { title: 'bytes', kind: 'figure' },
      { title: 'bytes of index', kind: 'figure' },
      { title: 'dropped on', kind: 'word' },
    ],
    rows: bins.map(({ month, stored }) => [
      month,
      formatWhole(stored?.rows ?? 0),
      stored?.estimated === true ? 'estimated' : 'counted',
      formatWhole(stored?.heap_bytes ?? 0),
      formatWhole(stored?.index_bytes ?? 0),
      stored?.drops_on ?? noFigure,
    ]),
  },
];
