import type { AtlasPlane } from '#server/contract/atlas.ts';
import { formatTenths, formatWhole } from '#web/format/format-number.ts';
import { formatTemperature, temperatureUnit, toReaderTemperature } from '#web/format/format-temperature.ts';
import type { Units } from '#web/format/units.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import type { Look } from './look.ts';
import { label, line, type Shape } from './shapes.ts';
import { spreadLabels } from './spread-labels.ts';
import { textWidth } from './text-width.ts';
import { roundTicks } from './ticks.ts';
import { axisTooltip } from './tooltip.ts';

export type AtlasAxis = 'command' | 'fluid';

const pads = { leftPx: 40, rightPx: 52, topPx: 30, footPx: 46 };
const labelGapPx = 16;
/** Of the tone of the cells: the fewest readings are still to be seen, the most do not hide the lines. */
const shade = { least: 0.05, most: 0.42 };

const quantiles = [
  { key: 'p95', text: '95 %', width: 1, tone: 'inkSoft' },
  { key: 'p75', text: '75 %', width: 1.25, tone: 'inkSoft' },
  { key: 'p50', text: 'middle', width: 2.25, tone: 'ink' },
  { key: 'p25', text: '25 %', width: 1.25, tone: 'inkSoft' },
  { key: 'p05', text: '5 %', width: 1, tone: 'inkSoft' },
] as const;

interface Asked {
  axis: AtlasAxis;
  plane: AtlasPlane;
  limitRpm: number;
  /** the one on top */
  vehicle: string | null;
}

/** Slip of a whole platform against one condition: cells by count, quantiles over them, one vehicle on top. */
export function atlasOption(asked: Asked, frame: Frame): ChartOption {
  const { plane, axis } = asked;
  const { look, units } = frame;
  const plot = measurePlot(asked, frame);
  const text = { color: look.inkSoft, fontFamily: look.fontFamily, fontSize: look.smallPx };
  const xTicks = ticksOf(axis, plane, units, (plot.right - plot.left) / 70);
  return {
    grid: { left: plot.left, right: frame.widthPx - plot.right, top: plot.top, bottom: pads.footPx },
    textStyle: { fontFamily: look.fontFamily },
    tooltip: { ...axisTooltip(look), trigger: 'item' },
    xAxis: {
      type: 'value',
      min: plot.xFrom,
      max: plot.xTo,
      axisTick: { show: false, customValues: xTicks },
      axisLabel: {
        ...text,
        customValues: xTicks,
        formatter: (value: number) =>
          formatWhole(axis === 'fluid' ? toReaderTemperature(value, units) : value),
      },
      axisLine: { onZero: false, lineStyle: { color: look.hairlineStrong } },
      splitLine: { show: false },
    },
    yAxis: {
      type: 'value',
      min: 0,
      max: plot.slipTo,
      axisTick: { show: false },
      axisLabel: { ...text, customValues: roundTicks(0, plot.slipTo, 6) },
      axisLine: { show: false },
      splitLine: { show: false },
    },
    series: [
      drawCells(asked, plot, frame),
      ...quantiles.map(({ key, width, tone }) => ({
        id: key,
        type: 'line' as const,
        silent: true,
        symbol: plane.quantiles.length === 1 ? 'circle' : 'none',
        symbolSize: 2 * width + 2,
        z: 4,
        connectNulls: false,
        lineStyle: { color: look[tone], width },
        itemStyle: { color: look[tone] },
        data: eachStep(plane).map(({ x, own }) => [
          x,
          own === undefined ? null : Math.min(own[key], plot.slipTo),
        ]),
      })),
      ...drawVehicle(asked, plot, look, units),
    ],
    graphic: { elements: [...nameAxes(asked, plot, frame), ...nameQuantiles(plane, plot, look)] },
  };
}

interface Plot {
  left: number;
  right: number;
  top: number;
  foot: number;
  xFrom: number;
  xTo: number;
  slipTo: number;
  toX: (x: number) => number;
  toY: (rpm: number) => number;
}

function measurePlot({ plane }: Asked, { widthPx, heightPx }: Frame): Plot {
  const [xFrom = 0, xTo = 1] = [plane.x_edges[0], plane.x_edges.at(-1)];
  const slipTo = plane.slip_edges.at(-1) ?? 1;
  const { leftPx: left, topPx: top } = pads;
  const [right, foot] = [widthPx - pads.rightPx, heightPx - pads.footPx];
  return {
    ...{ left, right, top, foot, xFrom, xTo, slipTo },
    toX: (x) => left + ((x - xFrom) / (xTo - xFrom)) * (right - left),
    toY: (rpm) => foot - (Math.min(Math.max(rpm, 0), slipTo) / slipTo) * (foot - top),
  };
}

/** What one or two vehicles show by themselves is no quantile of a platform: there are only the cells. */
const leastVehicles = 5;
const leastReadings = 20;

/** Steps whose quantiles are of the platform. */
function soundQuantiles({ quantiles: found }: AtlasPlane): AtlasPlane['quantiles'] {
  const needed = Math.min(leastVehicles, Math.max(1, ...found.map((one) => one.vehicles)));
  return found.filter((one) => one.vehicles >= needed && one.n >= leastReadings);
}

/** Every step of the axis with its quantiles, so that a step without readings breaks the line. */
function eachStep(plane: AtlasPlane) {
  const found = soundQuantiles(plane);
  return plane.x_edges.slice(0, -1).map((from, i) => {
    const x = (from + (plane.x_edges[i + 1] ?? from)) / 2;
    return { x, own: found.find((one) => Math.abs(one.x - x) < 1e-6) };
  });
}

function drawCells({ plane, axis }: Asked, plot: Plot, { look, units }: Frame) {
  const { x_edges, slip_edges, readings } = plane;
  const most = Math.log1p(Math.max(1, ...readings.flat()));
  const cells = readings.flatMap((row, i) =>
    row.flatMap((n, j) => (n === 0 ? [] : [{ i, j, n, depth: Math.log1p(n) / most }])),
  );
  return {
    id: 'cells',
    type: 'custom' as const,
    z: 1,
    // What the rectangles lie between; the axes are fixed, so that nothing else has to be known of them.
    data: cells.map(({ i, j }) => [x_edges[i] ?? 0, slip_edges[j] ?? 0]),
    renderItem: ({ dataIndex }: { dataIndex: number }) => {
      const { i, j, depth } = cells[dataIndex] ?? { i: 0, j: 0, depth: 0 };
      const [left, right] = [plot.toX(x_edges[i] ?? 0), plot.toX(x_edges[i + 1] ?? 0)];
      const [foot, top] = [plot.toY(slip_edges[j] ?? 0), plot.toY(slip_edges[j + 1] ?? 0)];
      return {
        type: 'rect' as const,
        shape: { x: left + 0.5, y: top, width: Math.max(1, right - left - 1), height: foot - top },
        style: { fill: look.accent, opacity: shade.least + (shade.most - shade.least) * depth },
      };
    },
    tooltip: {
      formatter: (one: { dataIndex: number }) => {
        const { i, j, n } = cells[one.dataIndex] ?? { i: 0, j: 0, n: 0 };
        return [
          `<b>${sayStep(axis, [x_edges[i] ?? 0, x_edges[i + 1] ?? 0], units)}</b>`,
          `slip ${formatWhole(slip_edges[j] ?? 0)} to ${formatWhole(slip_edges[j + 1] ?? 0)} rpm`,
          n === 1 ? '1 reading' : `${formatWhole(n)} readings`,
        ].join('<br>');
      },
    },
  };
}

/** Old to new: the older, the fainter. Above the scale it stands at its upper edge, as a point upwards. */
function drawVehicle({ plane, vehicle, axis }: Asked, plot: Plot, look: Look, units: Units) {
  const points = plane.vehicle ?? [];
  if (vehicle === null || points.length === 0) return [];
  const most = Math.sqrt(Math.max(...points.map((one) => one.n)));
  return [
    {
      id: 'vehicle',
      type: 'scatter' as const,
      z: 5,
      data: points.map((one, i) => {
        const age = points.length === 1 ? 1 : i / (points.length - 1);
        const isAbove = one.slip_rpm > plot.slipTo;
        return {
          value: [one.x, isAbove ? plot.slipTo : Math.max(0, one.slip_rpm)],
          symbol: isAbove ? 'triangle' : 'circle',
          symbolSize: 4 + 6 * (Math.sqrt(one.n) / most),
          itemStyle: {
            color: look.ink,
            opacity: 0.12 + 0.88 * age ** 3,
            borderColor: look.paper,
            borderWidth: 1,
          },
        };
      }),
      tooltip: {
        formatter: ({ dataIndex }: { dataIndex: number }) => {
          const one = points[dataIndex];
          if (one === undefined) return '';
          const at = axis === 'fluid' ? formatTemperature(one.x, units) : `${formatWhole(one.x)} % command`;
          return [
            `<b>${escapeUnit(vehicle)}, ${one.at.slice(0, 10)}</b>`,
            `${formatTenths(one.slip_rpm)} rpm at ${at}`,
            `${formatWhole(one.n)} readings`,
          ].join('<br>');
        },
      },
    },
  ];
}

/** A unit number is the fleet's own text, and a tooltip is HTML. */
const escapeUnit = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

function nameAxes({ axis, limitRpm, plane }: Asked, plot: Plot, { look, units, heightPx }: Frame): Shape[] {
  const y = Math.round(plot.toY(limitRpm)) + 0.5;
  const title = axis === 'fluid' ? `fluid temperature, ${temperatureUnit(units)}` : 'command, %';
  const above = plane.above > 0 ? `; ${formatWhole(plane.above)} readings lie above the scale` : '';
  const slip = `slip, rpm${above}`;
  const fits = textWidth(slip, look.smallPx) < plot.right - plot.left;
  return [
    line('limit', 'over', [plot.left, y], [plot.right, y], { stroke: look.ink, lineWidth: 1.25 }),
    label(
      'limit-words',
      { text: `limit ${formatWhole(limitRpm)} rpm`, x: plot.left + 6, y: y - 10, color: look.ink },
      look,
    ),
    label('y-title', { text: fits ? slip : 'slip, rpm', x: 0, y: 10, color: look.inkSoft }, look),
    label(
      'x-title',
      { text: title, x: plot.right, y: heightPx - 9, color: look.inkSoft, align: 'right' },
      look,
    ),
  ];
}

/** Each line named at its right end. */
function nameQuantiles(plane: AtlasPlane, plot: Plot, look: Look): Shape[] {
  const last = soundQuantiles(plane).at(-1);
  if (last === undefined) return [];
  const ends = quantiles.map(({ key, text, tone }) => ({ key, text, tone, yPx: plot.toY(last[key]) }));
  const bounds = { topPx: plot.top, bottomPx: plot.foot - 6 };
  return spreadLabels(ends, labelGapPx, bounds).map(({ key, text, tone, placedPx }) =>
    label(
      `${key}-words`,
      {
        text,
        x: Math.min(plot.toX(last.x) + 8, plot.right + 4),
        y: placedPx,
        color: look[tone],
        strong: tone === 'ink',
      },
      look,
    ),
  );
}

/** Round in the reader's degrees, given in degC. */
function ticksOf(axis: AtlasAxis, { x_edges }: AtlasPlane, units: Units, about: number): number[] {
  const [from = 0, to = 1] = [x_edges[0], x_edges.at(-1)];
  if (axis === 'command' || units.temperature === 'C') return roundTicks(from, to, Math.max(2, about));
  const ticks = roundTicks(
    toReaderTemperature(from, units),
    toReaderTemperature(to, units),
    Math.max(2, about),
  );
  return ticks.map((fahrenheit) => ((fahrenheit - 32) * 5) / 9);
}

export const sayStep = (axis: AtlasAxis, [from, to]: readonly [number, number], units: Units): string =>
  axis === 'fluid'
    ? `${formatWhole(toReaderTemperature(from, units))} to ${formatTemperature(to, units)}`
    : `${formatWhole(from)} to ${formatWhole(to)} % command`;
