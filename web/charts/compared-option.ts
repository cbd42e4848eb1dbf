import { kmFromMiles } from '#server/contract/units.ts';
import { formatKm, formatThousands, toReaderDistance } from '#web/format/format-km.ts';
import { formatTenths, formatWhole } from '#web/format/format-number.ts';
import type { Units } from '#web/format/units.ts';
import type { ChartOption } from './chart.tsx';
import { fitName } from './fit-name.ts';
import type { Frame } from './frame.ts';
import type { Look } from './look.ts';
import type { NumbersTable } from './numbers.ts';
import { type ComparedSeries, spanOf } from './read-compared.ts';
import { label, line, type Shape } from './shapes.ts';
import { spreadLabels } from './spread-labels.ts';
import { textWidth } from './text-width.ts';
import { roundTicks } from './ticks.ts';

const leftPx = 44;
const topPx = 26;
const footPx = 40;
const labelGapPx = 17;
const besidePx = 8;
/** Names take no more of the width than this. */
const mostForNames = 0.28;
/** A few wild stretches must not press all the others flat: what lies beyond is drawn at the edge. */
const mostOverLimit = 1.6;

/** Vehicles differ by tone and by shape; the marks of the page are the same. */
const seriesMarks = [
  { symbol: 'circle', tone: 'ink', dash: 'solid' },
  { symbol: 'rect', tone: 'accent', dash: 'solid' },
  { symbol: 'triangle', tone: 'inkSoft', dash: 'dashed' },
] as const satisfies readonly { symbol: string; tone: keyof Look; dash: string }[];

const markOf = (i: number) => seriesMarks[i % seriesMarks.length] ?? seriesMarks[0];

/** Slip at the reference point of two or three vehicles over their last kilometres, on common axes. */
export function comparedOption(all: readonly ComparedSeries[], frame: Frame): ChartOption {
  const { look, units, widthPx, heightPx } = frame;
  const spanKm = spanOf(all);
  const names = all.map(({ vehicle }) => fitName(vehicle, widthPx * mostForNames, look.smallPx));
  const rightPx = Math.max(0, ...names.map((name) => textWidth(name, look.smallPx))) + besidePx + 8;
  const box = {
    left: leftPx,
    top: topPx,
    width: widthPx - leftPx - rightPx,
    height: heightPx - topPx - footPx,
  };
  const top = topOf(all, spanKm);
  const toX = (km: number) => box.left + box.width * (1 + km / spanKm);
  const toY = (rpm: number) => box.top + box.height * (1 - Math.min(rpm, top) / top);
  const text = { color: look.inkSoft, fontFamily: look.fontFamily, fontSize: look.smallPx };
  const xTicks = distanceTicks(spanKm, box.width, units);
  const yTicks = roundTicks(0, top, box.height / 40);
  return {
    grid: [{ id: 'compared', ...box }],
    textStyle: { fontFamily: look.fontFamily },
    tooltip: {
      trigger: 'item',
      backgroundColor: look.paper,
      borderColor: look.hairlineStrong,
      borderRadius: 0,
      padding: [6, 10],
      textStyle: { color: look.ink, fontFamily: look.fontFamily, fontSize: look.smallPx },
      extraCssText: 'box-shadow: none;',
      formatter: (item) => tellPoint(all, Array.isArray(item) ? item[0] : item, units),
    },
    xAxis: [
      {
        type: 'value',
        min: -spanKm,
        max: 0,
        splitLine: { show: false },
        axisTick: { customValues: xTicks, lineStyle: { color: look.hairlineStrong } },
        axisLabel: {
          ...text,
          customValues: xTicks,
          formatter: (km: number) => (km === 0 ? 'now' : formatThousands(-km, units)),
        },
        axisLine: { onZero: false, lineStyle: { color: look.hairlineStrong } },
      },
    ],
    yAxis: [
      {
        type: 'value',
        min: 0,
        max: top,
        axisTick: { show: false, customValues: yTicks },
        splitLine: { lineStyle: { color: look.hairline, opacity: 0.7 } },
        axisLabel: { ...text, customValues: yTicks },
        axisLine: { show: false },
      },
    ],
    series: all.flatMap((one, i) => drawOne(one, i, { spanKm, top, look })),
    graphic: {
      elements: [
        label('y-title', { text: 'slip at the reference point, rpm', x: 0, y: 9, color: look.inkSoft }, look),
        label(
          'x-title',
          {
            text: `thousand ${units.distance} before now`,
            x: box.left + box.width,
            y: heightPx - 9,
            color: look.inkSoft,
            align: 'right',
          },
          look,
        ),
        ...drawLimits(all, toY, box, look),
        ...nameEnds(all, names, { toX, toY, box, look }),
      ],
    },
  };
}

interface Drawing {
  spanKm: number;
  top: number;
  look: Look;
}

/** Stretches as faint marks, and what the fit makes of them as a line; without a fit the marks are joined. */
function drawOne(one: ComparedSeries, i: number, { spanKm, top, look }: Drawing) {
  const { symbol, tone, dash } = markOf(i);
  const color = look[tone];
  const seen = one.points.filter(({ km }) => km >= -spanKm);
  const fitted = clipLine(one.line, -spanKm);
  return [
    {
      type: 'scatter' as const,
      id: `points-${i}`,
      name: String(i),
      symbol,
      symbolSize: 5,
      itemStyle: { color, opacity: 0.45 },
      data: seen.map(({ km, slipRpm }) => ({
        value: [km, Math.max(0, Math.min(slipRpm, top))],
        name: String(slipRpm),
      })),
    },
    {
      type: 'line' as const,
      id: `line-${i}`,
      silent: true,
      symbol: 'none',
      lineStyle: { color, width: 2, type: dash },
      data:
        fitted.length > 1
          ? fitted.map(([km, rpm]) => [km, Math.min(rpm, top)])
          : seen.map(({ km, slipRpm }) => [km, Math.min(slipRpm, top)]),
    },
  ];
}

/** The part of a line from `from` on, begun where it crosses. */
function clipLine(points: readonly [number, number][], from: number): [number, number][] {
  return points.flatMap(([km, rpm], i): [number, number][] => {
    if (km >= from) return [[km, rpm]];
    const next = points[i + 1];
    if (next === undefined || next[0] <= from) return [];
    const along = (from - km) / (next[0] - km);
    return [[from, rpm + along * (next[1] - rpm)]];
  });
}

function topOf(all: readonly ComparedSeries[], spanKm: number): number {
  const limit = Math.max(...all.map(({ limitRpm }) => limitRpm));
  const highest = Math.max(
    limit,
    ...all.flatMap(({ points }) => points.filter(({ km }) => km >= -spanKm).map(({ slipRpm }) => slipRpm)),
  );
  return Math.min(highest, limit * mostOverLimit) * 1.06;
}

/** Round distances of the reader, as kilometres. */
function distanceTicks(spanKm: number, widthPx: number, units: Units): number[] {
  const inReader = roundTicks(0, toReaderDistance(spanKm, units), Math.max(2, widthPx / 110));
  return inReader
    .map((distance) => -(units.distance === 'mi' ? kmFromMiles(distance) : distance))
    .map((km) => km || 0);
}

type Box = { left: number; top: number; width: number; height: number };

/** One line a limit; whose it is where they differ. */
function drawLimits(
  all: readonly ComparedSeries[],
  toY: (rpm: number) => number,
  box: Box,
  look: Look,
): Shape[] {
  const limits = [
    ...new Set(all.flatMap(({ limitRpm, points }) => (points.length > 0 ? [limitRpm] : []))),
  ].sort((x, y) => y - x);
  return limits.flatMap((rpm, i) => {
    const y = Math.round(toY(rpm)) + 0.5;
    const above = limits[i - 1];
    const isNear = above !== undefined && y - toY(above) < labelGapPx + 2;
    const whose = all.filter(({ limitRpm }) => limitRpm === rpm).map(({ vehicle }) => vehicle);
    const text = `limit ${formatWhole(rpm)}${limits.length === 1 ? '' : `, ${whose.join(', ')}`}`;
    const words = {
      text: fitName(text, box.width * 0.6, look.smallPx),
      x: box.left + 6,
      y: isNear ? y + 9 : y - 9,
      color: look.grade.hold,
    };
    return [
      line(`limit-${rpm}`, 'over', [box.left, y], [box.left + box.width, y], {
        stroke: look.grade.hold,
        lineDash: [5, 3],
      }),
      label(`limit-${rpm}-words`, words, look),
    ];
  });
}

interface Ends {
  toX: (km: number) => number;
  toY: (rpm: number) => number;
  box: Box;
  look: Look;
}

/** The name of each vehicle where its line ends. */
function nameEnds(
  all: readonly ComparedSeries[],
  names: readonly string[],
  { toX, toY, box, look }: Ends,
): Shape[] {
  const ends = all.flatMap((one, i) => {
    const last = one.line.at(-1) ?? lastPoint(one);
    return last === null ? [] : [{ i, xPx: toX(last[0]), yPx: toY(last[1]) }];
  });
  return spreadLabels(ends, labelGapPx, { topPx: box.top, bottomPx: box.top + box.height - 6 }).map(
    ({ i, placedPx }) =>
      label(
        `name-${i}`,
        {
          text: names[i] ?? '',
          x: box.left + box.width + besidePx,
          y: placedPx,
          color: look[markOf(i).tone],
          strong: true,
        },
        look,
      ),
  );
}

const lastPoint = ({ points }: ComparedSeries): [number, number] | null => {
  const last = points.at(-1);
  return last === undefined ? null : [last.km, last.slipRpm];
};

function tellPoint(
  all: readonly ComparedSeries[],
  item: { seriesName?: string | undefined; dataIndex: number; data?: unknown; name?: string } | undefined,
  units: Units,
): string {
  const one = all[Number(item?.seriesName)];
  const value = (item?.data as { value?: [number, number] } | undefined)?.value;
  if (one === undefined || value === undefined) return '';
  const rpm = Number(item?.name);
  return [
    `<b>${escapeHtml(one.vehicle)}</b>`,
    `${formatTenths(rpm)} rpm, ${formatKm(-value[0], units)} before now`,
  ].join('<br>');
}

const escapeHtml = (text: string): string =>
  text.replaceAll(/[&<>"']/g, (character) => `&#${character.charCodeAt(0)};`);

/** The same figures as tables, one a vehicle, the newest first. */
export function listComparedNumbers(all: readonly ComparedSeries[], units: Units): NumbersTable[] {
  const spanKm = spanOf(all);
  return all.map(({ vehicle, points, limitRpm }) => ({
    caption: `${vehicle}, limit ${formatWhole(limitRpm)} rpm`,
    columns: [
      { title: `${units.distance} before now`, kind: 'figure' },
      { title: 'slip, rpm', kind: 'figure' },
    ],
    rows: points
      .filter(({ km }) => km >= -spanKm)
      .toReversed()
      .map(({ km, slipRpm }) => [formatWhole(-toReaderDistance(km, units)), formatTenths(slipRpm)]),
  }));
}
