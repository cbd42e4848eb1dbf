import { formatWhole } from '#web/format/format-number.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import type { Look } from './look.ts';
import type { NumbersTable } from './numbers.ts';
import { label } from './shapes.ts';
import { axisTooltip, firstIndex } from './tooltip.ts';

export interface ThroughputBin {
  /** of the hour or the day */
  name: string;
  /** whole, for the tooltip and the table */
  longName: string;
  deliveries: number;
  received: number;
  stored: number;
  duplicate: number;
  refused: number;
}

type Fate = 'stored' | 'duplicate' | 'refused';

const strips: readonly { fate: Fate; heightPx: number; words: string }[] = [
  { fate: 'stored', heightPx: 110, words: 'stored' },
  { fate: 'duplicate', heightPx: 44, words: 'there already' },
  { fate: 'refused', heightPx: 44, words: 'refused' },
];
/** Of which a half is round too. */
const roundEnds = [1, 2, 4, 6, 8, 10];
const titlePx = 26;
const footPx = 28;
const leftPx = 64;
const rightPx = 8;

export const throughputHeightPx = strips.reduce((sum, { heightPx }) => sum + heightPx + titlePx, 0) + footPx;

/** What became of lines, hour by hour or day by day: a strip each, since the few that are refused would vanish in a stack. */
export function throughputOption(bins: readonly ThroughputBin[], { look }: Frame): ChartOption {
  const text = { color: look.inkSoft, fontFamily: look.fontFamily, fontSize: look.smallPx };
  const placed = strips.map((strip, i) => ({
    ...strip,
    topPx: titlePx + strips.slice(0, i).reduce((sum, { heightPx }) => sum + heightPx + titlePx, 0),
    scale: scaleOf(bins, strip.fate, i > 0),
  }));
  return {
    textStyle: { fontFamily: look.fontFamily },
    grid: placed.map(({ topPx, heightPx }) => ({
      left: leftPx,
      right: rightPx,
      top: topPx,
      height: heightPx,
    })),
    tooltip: { ...axisTooltip(look), formatter: (items) => tellBin(bins[firstIndex(items)]) },
    xAxis: placed.map((_, i) => ({
      type: 'category' as const,
      gridIndex: i,
      data: bins.map(({ name }) => name),
      axisTick: { show: false },
      axisLine: { lineStyle: { color: look.hairlineStrong } },
      axisLabel: { ...text, show: i === placed.length - 1, hideOverlap: true },
    })),
    yAxis: placed.map(({ scale }, i) => ({
      type: 'value' as const,
      gridIndex: i,
      min: 0,
      max: scale.top,
      interval: scale.step,
      axisLabel: { ...text, formatter: (value: number) => formatWhole(value) },
      splitLine: { lineStyle: { color: look.hairline } },
    })),
    series: placed.map(({ fate }, i) => ({
      id: fate,
      type: 'bar' as const,
      silent: true,
      xAxisIndex: i,
      yAxisIndex: i,
      barWidth: '70%',
      itemStyle: { color: inkOf(fate, look) },
      data: bins.map((bin) => bin[fate]),
    })),
    graphic: {
      elements: placed.map(({ fate, topPx, words }) =>
        label(
          `${fate}-words`,
          {
            text: `${words}: ${formatWhole(sum(bins, fate))} lines`,
            x: leftPx,
            y: topPx - 12,
            color: inkOf(fate, look),
            strong: true,
          },
          look,
        ),
      ),
    },
  };
}

const inkOf = (fate: Fate, look: Look): string =>
  fate === 'stored' ? look.accent : fate === 'refused' ? look.grade.hold : look.inkSoft;

const sum = (bins: readonly ThroughputBin[], fate: Fate): number =>
  bins.reduce((total, bin) => total + bin[fate], 0);

/** A round end of the scale, and its ticks; a low strip has that end alone. */
function scaleOf(bins: readonly ThroughputBin[], fate: Fate, isLow: boolean): { top: number; step: number } {
  const most = Math.max(1, ...bins.map((bin) => bin[fate]));
  const size = 10 ** Math.floor(Math.log10(most));
  const top = (roundEnds.find((one) => one * size >= most) ?? 10) * size;
  return { top, step: isLow ? top : Math.max(1, top / 2) };
}

function tellBin(bin: ThroughputBin | undefined): string {
  if (bin === undefined) return '';
  const { longName, deliveries, received, stored, duplicate, refused } = bin;
  return [
    `<b>${longName}</b>`,
    `${formatWhole(deliveries)} ${deliveries === 1 ? 'delivery' : 'deliveries'}, ${formatWhole(received)} lines`,
    `${formatWhole(stored)} stored, ${formatWhole(duplicate)} there already`,
    `${formatWhole(refused)} refused`,
  ].join('<br>');
}

export const listThroughputNumbers = (bins: readonly ThroughputBin[], caption: string): NumbersTable[] => [
  {
    caption,
    columns: [
      { title: 'from', kind: 'word' },
      ...['deliveries', 'received', 'stored', 'there already', 'refused'].map((title) => ({
        title,
        kind: 'figure' as const,
      })),
    ],
    rows: bins.map((bin) => [
      bin.longName,
      ...[bin.deliveries, bin.received, bin.stored, bin.duplicate, bin.refused].map(formatWhole),
    ]),
  },
];
