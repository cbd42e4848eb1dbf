import type { Outlook } from '#server/contract/ranking.ts';
import { type Grade, grades } from '#server/contract/words.ts';
import { formatWeek } from '#web/format/format-date.ts';
import { formatTenths, formatWhole } from '#web/format/format-number.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import type { LegendEntry, LegendMark } from './legend.ts';
import type { Look } from './look.ts';
import type { NumbersTable } from './numbers.ts';
import { axisTooltip, firstIndex } from './tooltip.ts';

/** Above this many vehicles in one week, single marks would run into each other. */
const mostMarks = 14;
/** Bay days far above all demand would press it flat: the scale then ends at demand. */
const mostSlack = 2.5;

/** When drifting vehicles reach their limits, week by week, against the bay days that are free. */
export function outlookOption(outlook: Outlook, { look }: Pick<Frame, 'look'>): ChartOption {
  const columns = [
    { name: 'past limit', vehicles: outlook.overdue, expected: 0, bayDays: null as number | null },
  ].concat(
    outlook.weeks.map((week) => ({
      name: formatWeek(week.week),
      vehicles: week.vehicles,
      expected: week.expected,
      bayDays: week.bay_days,
    })),
  );
  const { demand, bayDays: mostBayDays } = findMost(outlook);
  const isClipped = mostBayDays > demand * mostSlack;
  const top = topOf(outlook);
  const hasMarks = Math.max(...columns.map((one) => one.vehicles.length)) <= mostMarks;
  const text = { color: look.inkSoft, fontFamily: look.fontFamily, fontSize: look.smallPx };
  return {
    grid: { left: 34, right: 16, top: 30, bottom: 28 },
    textStyle: { fontFamily: look.fontFamily },
    tooltip: {
      ...axisTooltip(look),
      formatter: (items) => tellColumn(columns[firstIndex(items)]),
    },
    xAxis: {
      type: 'category',
      data: columns.map((one) => one.name),
      axisTick: { show: false },
      axisLine: { lineStyle: { color: look.hairlineStrong } },
      axisLabel: { ...text, hideOverlap: true },
    },
    yAxis: {
      type: 'value',
      name: isClipped
        ? `vehicles, bay days; off the scale there are up to ${formatWhole(mostBayDays)} bay days a week`
        : 'vehicles, bay days',
      nameLocation: 'end',
      nameTextStyle: { ...text, align: 'left', padding: [0, 0, 4, -34] },
      min: 0,
      max: top,
      interval: Math.max(1, Math.ceil(top / 4)),
      axisLabel: { ...text, showMaxLabel: false },
      splitLine: { lineStyle: { color: look.hairline } },
    },
    series: [
      {
        name: 'expected',
        type: 'bar',
        silent: true,
        barWidth: '76%',
        itemStyle: { color: look.hairline },
        data: columns.map((one) => one.expected),
      },
      ...(hasMarks ? [markSeries(columns, look)] : heapSeries(columns, look)),
      isClipped
        ? {
            name: 'free bay days',
            type: 'scatter',
            silent: true,
            symbol: 'rect',
            symbolSize: [30, 2],
            itemStyle: { color: look.accent, opacity: 1 },
            // A line would break off where it leaves the scale, and a week by itself would have none.
            data: columns.map(({ bayDays }) => (bayDays === null || bayDays > top ? null : bayDays)),
          }
        : {
            name: 'free bay days',
            type: 'line',
            step: 'middle',
            silent: true,
            symbol: 'none',
            clip: true,
            lineStyle: { color: look.accent, width: 2 },
            data: columns.map((one) => one.bayDays),
          },
    ],
  };
}

/** The most vehicles of a week, past the limit or due, and the most free bay days. */
const findMost = ({ weeks, overdue }: Outlook) => ({
  demand: Math.max(2, overdue.length, ...weeks.flatMap((week) => [week.vehicles.length, week.expected])),
  bayDays: Math.max(0, ...weeks.map((week) => week.bay_days)),
});

/** End of the scale: that of the bay days, where they are near enough to demand. */
function topOf(outlook: Outlook): number {
  const { demand, bayDays } = findMost(outlook);
  return roundUp(bayDays > demand * mostSlack ? demand * 1.3 : Math.max(demand, bayDays) * 1.1);
}

/** Whether the free bay days of any week are on the scale. */
function hasBayDaysInSight(outlook: Outlook): boolean {
  const top = topOf(outlook);
  return outlook.weeks.some((week) => week.bay_days <= top);
}

interface Column {
  name: string;
  vehicles: Outlook['overdue'];
  expected: number;
  bayDays: number | null;
}

/** Sizes follow the blocks of the grade marks, so that grades differ in more than tone. */
const markSize: Record<Grade, readonly [number, number]> = {
  hold: [14, 11],
  book: [10, 10],
  watch: [6, 8],
  steady: [4, 4],
  unknown: [4, 4],
};

const drawnGrades = ['hold', 'book', 'watch'] as const;

/** What the marks mean; sizes and tones are those of the drawing. */
export function outlookLegend(outlook: Outlook | null, look: Look): LegendEntry[] {
  const mark = (kind: LegendMark['kind'], [widthPx, heightPx]: readonly [number, number], color: string) => ({
    kind,
    widthPx,
    heightPx,
    color,
  });
  return [
    {
      marks: drawnGrades.map((grade) => mark('fill', markSize[grade], look.grade[grade])),
      words: 'a vehicle (hold, book, watch) in the week of its median',
    },
    { marks: [mark('outline', markSize.book, look.grade.book)], words: 'with a day, or inspected' },
    { marks: [mark('fill', [16, 12], look.hairline)], words: 'expected, the others' },
    ...(outlook !== null && hasBayDaysInSight(outlook)
      ? [{ marks: [mark('fill', [20, 2], look.accent)], words: 'free bay days' }]
      : []),
  ];
}

function markSeries(columns: readonly Column[], look: Look) {
  return {
    name: 'vehicles',
    type: 'scatter' as const,
    symbol: 'rect',
    cursor: 'pointer',
    data: columns.flatMap((column, x) =>
      inOrder(column.vehicles).map(({ vehicle, grade, seen_to }, i) => ({
        name: vehicle,
        value: [x, i + 0.5],
        symbolSize: [...markSize[grade]],
        itemStyle: seen_to
          ? { color: 'transparent', borderColor: look.grade[grade], borderWidth: 1.5, opacity: 1 }
          : { color: look.grade[grade], opacity: 1 },
      })),
    ),
  };
}

function heapSeries(columns: readonly Column[], look: Look) {
  return grades
    .filter((grade) => columns.some((column) => column.vehicles.some((one) => one.grade === grade)))
    .map((grade) => ({
      name: grade,
      type: 'bar' as const,
      stack: 'vehicles',
      silent: true,
      barWidth: '30%',
      barGap: '-70%',
      itemStyle: { color: look.grade[grade] },
      data: columns.map((column) => column.vehicles.filter((one) => one.grade === grade).length),
    }));
}

const inOrder = (vehicles: Column['vehicles']) =>
  vehicles.toSorted((a, b) => grades.indexOf(a.grade) - grades.indexOf(b.grade));

const namesShown = 6;

function tellColumn(column: Column | undefined): string {
  if (column === undefined) return '';
  const head = column.bayDays === null ? 'Past the limit' : `Week of ${column.name}`;
  const names = inOrder(column.vehicles).map(
    ({ vehicle, grade, seen_to }) => `${escapeHtml(vehicle)} · ${grade}${seen_to ? ', seen to' : ''}`,
  );
  const rest = names.length - namesShown;
  const lines = [
    `<b>${head}</b>`,
    ...(column.bayDays === null
      ? []
      : [`${formatTenths(column.expected)} expected, ${formatWhole(column.bayDays)} bay days free`]),
    ...names.slice(0, namesShown),
    ...(rest > 0 ? [`and ${rest} more`] : []),
  ];
  return lines.join('<br>');
}

const escapeHtml = (text: string): string =>
  text.replaceAll(/[&<>"']/g, (character) => `&#${character.charCodeAt(0)};`);

/** The end of the scale: a whole number that four even ticks divide. */
function roundUp(value: number): number {
  const step = value <= 8 ? 2 : value <= 20 ? 4 : 10 ** Math.floor(Math.log10(value)) / 2;
  return Math.ceil(value / step) * step;
}

export function outlookNumbers(outlook: Outlook): NumbersTable {
  const names = (vehicles: Column['vehicles']) =>
    inOrder(vehicles)
      .map((one) => (one.seen_to ? `${one.vehicle} (seen to)` : one.vehicle))
      .join(', ');
  return {
    caption: 'Vehicles that reach their limit, by week',
    columns: [
      { title: 'Week of', kind: 'word' },
      { title: 'Expected', kind: 'figure' },
      { title: 'Bay days free', kind: 'figure' },
      { title: 'Vehicles, by median', kind: 'word' },
    ],
    rows: [
      ['past the limit', '', '', names(outlook.overdue)],
      ...outlook.weeks.map((week) => [
        formatWeek(week.week),
        formatTenths(week.expected),
        formatWhole(week.bay_days),
        names(week.vehicles),
      ]),
    ],
  };
}
