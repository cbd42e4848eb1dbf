import type { ReplayResult } from '#server/contract/replay.ts';
import { countDays } from '#web/format/days.ts';
import { formatWeek } from '#web/format/format-date.ts';
import { formatWhole } from '#web/format/format-number.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import type { Look } from './look.ts';
import type { NumbersTable } from './numbers.ts';
import { label } from './shapes.ts';
import { textWidth } from './text-width.ts';
import { axisTooltip, firstIndex } from './tooltip.ts';

type Week = ReplayResult['weeks'][number];

const topPx = 54;

/** How many vehicles stood on hold and book each week, and above them what came in it. */
export function weeksOption(weeks: readonly Week[], from: string, { look, widthPx }: Frame): ChartOption {
  const rest = restDays(weeks, from);
  const isRest = (i: number) => rest !== null && i === weeks.length - 1;
  const most = Math.max(2, ...weeks.map((week) => week.hold + week.book));
  const step = Math.max(1, Math.ceil(most / 4));
  const text = { color: look.inkSoft, fontFamily: look.fontFamily, fontSize: look.smallPx };
  const bar = { type: 'bar' as const, stack: 'list', silent: true, barWidth: '50%' };
  const top = step * Math.ceil(most / step);
  return {
    grid: { left: 34, right: 56, top: topPx, bottom: 28 },
    textStyle: { fontFamily: look.fontFamily },
    tooltip: { ...axisTooltip(look), formatter: (items) => tellWeek(weeks, firstIndex(items), rest) },
    xAxis: {
      type: 'category',
      data: weeks.map((week) => formatWeek(week.day)),
      axisTick: { show: false },
      axisLine: { lineStyle: { color: look.hairlineStrong } },
      axisLabel: { ...text, hideOverlap: true },
    },
    yAxis: {
      type: 'value',
      min: 0,
      max: top,
      interval: step,
      axisLabel: text,
      splitLine: { lineStyle: { color: look.hairline } },
    },
    series: [
      {
        ...bar,
        id: 'hold',
        itemStyle: { color: look.grade.hold },
        data: weeks.map((week, i) => fadeIf(isRest(i), week.hold)),
      },
      {
        ...bar,
        id: 'book',
        itemStyle: { color: 'transparent', borderColor: look.grade.book, borderWidth: 1.5 },
        data: weeks.map((week, i) => fadeIf(isRest(i), week.book)),
      },
      {
        id: 'came',
        type: 'scatter',
        silent: true,
        clip: false,
        symbol: 'diamond',
        symbolOffset: [0, -14],
        itemStyle: { color: look.ink, opacity: 1 },
        data: weeks.map((week) =>
          week.failures === 0 ? null : { value: top, symbolSize: 6 + 3 * Math.min(week.failures, 4) },
        ),
      },
    ],
    graphic: {
      elements: [
        label('y-title', { text: nameWeeks(rest, widthPx, look), x: 0, y: 10, color: look.inkSoft }, look),
        label('came-words', { text: 'came', x: widthPx - 50, y: topPx - 14, color: look.ink }, look),
        ...nameBars(weeks.at(-1), top, { look, widthPx }),
      ],
    },
  };
}

/** Beside the last week, where its bars are; apart where both are low. */
function nameBars(last: Week | undefined, top: number, { look, widthPx }: Pick<Frame, 'look' | 'widthPx'>) {
  if (last === undefined) return [];
  const plotPx = weeksHeightPx - topPx - 28;
  const foot = weeksHeightPx - 28;
  const holdY = foot - (last.hold / 2 / top) * plotPx;
  const bookY = Math.min(holdY - 16, foot - ((last.hold + last.book / 2) / top) * plotPx);
  const x = widthPx - 50;
  return [
    label('hold-words', { text: 'hold', x, y: holdY, color: look.grade.hold, strong: true }, look),
    label('book-words', { text: 'book', x, y: bookY, color: look.grade.book, strong: true }, look),
  ];
}

export const weeksHeightPx = 260;

function tellWeek(weeks: readonly Week[], i: number, rest: number | null): string {
  const week = weeks[i];
  if (week === undefined) return '';
  const isRest = rest !== null && i === weeks.length - 1;
  return [
    `<b>${isRest ? `${sayDays(rest)} to` : 'Week to'} ${formatWeek(week.day)}</b>`,
    `hold ${formatWhole(week.hold)}, book ${formatWhole(week.book)}`,
    `of ${formatWhole(week.vehicles)} vehicles`,
    week.failures === 0 ? 'nothing came' : `${formatWhole(week.failures)} came`,
  ].join('<br>');
}

/** Days of the last one, where it is only part of a week. */
function restDays(weeks: readonly Week[], from: string): number | null {
  const last = weeks.at(-1)?.day;
  if (last === undefined) return null;
  const before = weeks.at(-2)?.day;
  const days = before === undefined ? countDays(from, last) + 1 : countDays(before, last);
  return days < 7 ? days : null;
}

const sayDays = (days: number): string => (days === 1 ? '1 day' : `${days} days`);

function nameWeeks(rest: number | null, widthPx: number, { smallPx }: Look): string {
  const name = 'vehicles at the end of the week';
  if (rest === null) return name;
  const long = `${name}; the last, paler, has only ${sayDays(rest)}`;
  return textWidth(long, smallPx) < widthPx ? long : `vehicles; the last, paler: ${sayDays(rest)}`;
}

const fadeIf = (isFaded: boolean, value: number) =>
  isFaded ? { value, itemStyle: { opacity: 0.45 } } : value;

export function listWeeksNumbers(weeks: readonly Week[], from: string): NumbersTable[] {
  const figure = (title: string) => ({ title, kind: 'figure' as const });
  const rest = restDays(weeks, from);
  return [
    {
      caption: 'The list week by week',
      columns: [
        { title: 'week to', kind: 'word' },
        ...['days', 'vehicles', 'hold', 'book', 'came'].map(figure),
      ],
      rows: weeks.map((week, i) => [
        week.day,
        String(i === weeks.length - 1 ? (rest ?? 7) : 7),
        ...[week.vehicles, week.hold, week.book, week.failures].map(formatWhole),
      ]),
    },
  ];
}
