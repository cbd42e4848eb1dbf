import type { MovementWeek, PlatformMovement } from '#server/contract/movement.ts';
import { formatUtcDate } from '#web/format/format-date.ts';
import { formatTenths, formatWhole } from '#web/format/format-number.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import type { Look } from './look.ts';
import type { NumbersTable } from './numbers.ts';
import { type PlacedLabel, placeInLanes } from './place-in-lanes.ts';
import { label, line, type Shape } from './shapes.ts';
import { roundTicks } from './ticks.ts';
import { axisTooltip, firstIndex } from './tooltip.ts';

const WEEK_MS = 7 * 86_400_000;
const leftPx = 44;
const rightPx = 18;
const footPx = 28;
const mostLanes = 3;
const lanePx = 19;
/** Above the plot: the title of the axis, and over it the lanes of the steps that are needed. */
const titlePx = 28;
/** The scale holds so much at the least, rpm: a platform that stands still looks still. */
const leastSpanRpm = 20;
/** Two standard errors either way hold about 95 %. */
const errors = 2;

const signed = (rpm: number, format: (value: number) => string): string => {
  const text = format(rpm);
  return rpm > 0 && /[1-9]/.test(text) ? `+${text}` : text;
};

/** Common movement of a platform, week by week, with its band of error and its steps dated and sized. */
export function movementOption(movement: PlatformMovement, { look, widthPx, heightPx }: Frame): ChartOption {
  const weeks = movement.weeks.map((week) => ({ ...week, ms: middleOf(week.week) }));
  const [first, last] = [weeks[0], weeks.at(-1)];
  if (first === undefined || last === undefined) return {};
  const from = first.ms - WEEK_MS;
  const to = last.ms + WEEK_MS;
  const scale = scaleOf(movement.weeks);
  const toX = (ms: number) => leftPx + ((ms - from) / (to - from)) * (widthPx - rightPx - leftPx);
  const steps = placeSteps(movement, toX, { look, widthPx });
  const topPx = titlePx + steps.lanes * lanePx;
  const text = { color: look.inkSoft, fontFamily: look.fontFamily, fontSize: look.smallPx };
  const plain = { type: 'line' as const, symbol: 'none', silent: true };
  const band = (week: MovementWeek) => errors * (week.error_rpm ?? 0);
  return {
    useUTC: true,
    grid: { left: leftPx, right: rightPx, top: topPx, bottom: footPx },
    textStyle: { fontFamily: look.fontFamily },
    tooltip: {
      ...axisTooltip(look),
      formatter: (items) => tellWeek(movement.weeks[firstIndex(items)]),
    },
    xAxis: {
      type: 'time',
      min: from,
      max: to,
      axisTick: { lineStyle: { color: look.hairlineStrong } },
      axisLine: { onZero: false, lineStyle: { color: look.hairlineStrong } },
      axisLabel: { ...text, hideOverlap: true, formatter: nameMonth },
      splitLine: { show: false },
      splitNumber: Math.max(2, Math.round(widthPx / 130)),
      minInterval: 28 * 86_400_000,
    },
    yAxis: {
      type: 'value',
      min: scale.low,
      max: scale.high,
      interval: scale.step,
      axisLabel: { ...text, formatter: (value: number) => signed(value, formatWhole) },
      splitLine: { lineStyle: { color: look.hairline } },
    },
    series: [
      {
        ...plain,
        id: 'low',
        stack: 'band',
        stackStrategy: 'all',
        lineStyle: { opacity: 0 },
        data: weeks.map((week) => [week.ms, week.movement_rpm - band(week)]),
      },
      {
        ...plain,
        id: 'band',
        stack: 'band',
        stackStrategy: 'all',
        lineStyle: { opacity: 0 },
        areaStyle: { color: look.accent, opacity: 0.22 },
        data: weeks.map((week) => [week.ms, 2 * band(week)]),
      },
      {
        ...plain,
        id: 'movement',
        silent: false,
        z: 4,
        lineStyle: { color: look.ink, width: 2 },
        itemStyle: { color: look.ink },
        data: weeks.map((week) => [week.ms, week.movement_rpm]),
      },
      {
        type: 'scatter',
        id: 'carried',
        silent: true,
        symbolSize: 6,
        itemStyle: { color: look.paper, borderColor: look.inkSoft, borderWidth: 1.5 },
        data: weeks.filter((week) => week.carried).map((week) => [week.ms, week.movement_rpm]),
      },
    ],
    graphic: { elements: drawSteps(steps, { topPx, footPx: heightPx - footPx }, look) },
  };
}

interface Steps {
  marks: { id: string; xPx: number; texts: string[] }[];
  placed: PlacedLabel[];
  /** lanes that the words take */
  lanes: number;
}

/** Words for each step where there is room above the plot; the newest matter most. */
function placeSteps(
  { events }: PlatformMovement,
  toX: (ms: number) => number,
  { look, widthPx }: Pick<Frame, 'look' | 'widthPx'>,
): Steps {
  const marks = events
    .map((event, i) => {
      const size = `${signed(event.size_rpm, formatWhole)} rpm`;
      const day = formatUtcDate(event.at);
      const texts = [`${day}: ${size} at once on ${event.vehicles} vehicles`, `${day}: ${size}`, size];
      return { id: `step-${i}`, xPx: toX(Date.parse(event.at)), texts };
    })
    .toReversed();
  const placed = placeInLanes(marks, mostLanes, { leftPx: 0, rightPx: widthPx }, look.smallPx);
  return { marks, placed, lanes: Math.max(0, ...placed.map(({ lane }) => lane + 1)) };
}

/** An upright line at each step, up to its words. */
function drawSteps({ marks, placed }: Steps, plot: { topPx: number; footPx: number }, look: Look): Shape[] {
  const y = plot.topPx - titlePx + 9;
  return [
    label('y-title', { text: 'rpm, against the first weeks', x: 0, y, color: look.inkSoft }, look),
    ...marks.flatMap((mark) => {
      const words = placed.find((one) => one.id === mark.id);
      const x = Math.round(mark.xPx) + 0.5;
      const top = words === undefined ? plot.topPx : plot.topPx - titlePx - (words.lane + 1) * lanePx + 4;
      const stem = line(mark.id, 'band', [x, top], [x, plot.footPx], { stroke: look.accent, lineWidth: 1.5 });
      if (words === undefined) return [stem];
      const { text, align } = words;
      const wording = { text, align, x: align === 'left' ? x + 5 : x - 5, y: top + 7, color: look.ink };
      return [stem, label(`${mark.id}-words`, { ...wording, strong: true }, look)];
    }),
  ];
}

const middleOf = (week: string): number => Date.parse(`${week}T00:00:00Z`) + WEEK_MS / 2;

/** Round ends that hold every week with its error. */
export function scaleOf(weeks: readonly MovementWeek[]): { low: number; high: number; step: number } {
  const reach = weeks.flatMap(({ movement_rpm, error_rpm }) => [
    movement_rpm - errors * (error_rpm ?? 0),
    movement_rpm + errors * (error_rpm ?? 0),
  ]);
  const [least, most] = [Math.min(0, ...reach), Math.max(0, ...reach)];
  const lacking = Math.max(0, leastSpanRpm - (most - least)) / 2;
  const [from, to] = [least - lacking, most + lacking];
  const [a = 0, b = 10] = roundTicks(from, to, 5);
  const step = b - a;
  return { low: Math.floor(from / step) * step, high: Math.ceil(to / step) * step, step };
}

const months = new Intl.DateTimeFormat('en-GB', { month: 'short', timeZone: 'UTC' });

/** A month by its name, the first of a year with the year; days between are not named. */
function nameMonth(ms: number): string {
  const at = new Date(ms);
  if (at.getUTCDate() !== 1) return '';
  const month = months.format(at);
  return at.getUTCMonth() === 0 ? `${month} ${at.getUTCFullYear()}` : month;
}

const sayError = (week: MovementWeek): string =>
  week.error_rpm === null ? '' : ` ± ${formatTenths(errors * week.error_rpm)}`;

function tellWeek(week: MovementWeek | undefined): string {
  if (week === undefined) return '';
  const vehicles = week.carried
    ? `too few vehicles (${week.vehicles}): as the week before`
    : `${week.vehicles} vehicles`;
  return [
    `<b>Week of ${formatUtcDate(week.week)}</b>`,
    `${signed(week.movement_rpm, formatTenths)}${sayError(week)} rpm`,
    vehicles,
  ].join('<br>');
}

/** The same figures as tables: steps first, then week by week, the newest first. */
export function listMovementNumbers(movement: PlatformMovement): NumbersTable[] {
  const figure = (title: string) => ({ title, kind: 'figure' as const });
  const weeks: NumbersTable = {
    caption: 'Common movement by week, against the first weeks',
    columns: [{ title: 'Week of', kind: 'word' }, figure('rpm'), figure('± rpm, 95 %'), figure('vehicles')],
    rows: movement.weeks
      .toReversed()
      .map((week) => [
        week.week,
        formatTenths(week.movement_rpm),
        week.carried ? 'as before' : week.error_rpm === null ? '–' : formatTenths(errors * week.error_rpm),
        formatWhole(week.vehicles),
      ]),
  };
  if (movement.events.length === 0) return [weeks];
  const steps: NumbersTable = {
    caption: 'Steps',
    columns: [{ title: 'Date', kind: 'word' }, figure('rpm'), figure('vehicles')],
    rows: movement.events.map((event) => [
      event.at.slice(0, 10),
      formatTenths(event.size_rpm),
      formatWhole(event.vehicles),
    ]),
  };
  return [steps, weeks];
}
