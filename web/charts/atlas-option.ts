import type { AtlasPlane } from '#server/contract/atlas.ts';
import { formatTenths, formatWhole } from '#web/format/format-number.ts';
import { formatTemperature, toReaderTemperature } from '#web/format/format-temperature.ts';
import type { Units } from '#web/format/units.ts';
import {
  type AtlasAsked,
  type AtlasAxis,
  type AtlasPlot,
  measurePlot,
  pads,
  quantiles,
} from './atlas-plot.ts';
import { soundQuantiles } from './atlas-quantiles.ts';
import { nameAxes, nameQuantiles } from './atlas-words.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import type { Look } from './look.ts';
import { roundTicks } from './ticks.ts';
import { axisTooltip } from './tooltip.ts';

/** Of the tone of the cells: the fewest readings are still to be seen, the most do not hide the lines. */
const shade = { least: 0.05, most: 0.42 };

/** Slip of a whole platform against one condition: cells by count, quantiles over them, one vehicle on top. */
export function atlasOption(asked: AtlasAsked, frame: Frame): ChartOption {
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
          // Above the scale the line leaves the plot, so that its end is not taken for a value.
          own === undefined ? null : Math.max(0, own[key]),
        ]),
      })),
      ...drawVehicle(asked, plot, look, units),
    ],
    graphic: { elements: [...nameAxes(asked, plot, frame), ...nameQuantiles(asked, plot, look)] },
  };
}

/** Every step of the axis with its quantiles, so that a step without readings breaks the line. */
function eachStep(plane: AtlasPlane) {
  const found = soundQuantiles(plane);
  return plane.x_edges.slice(0, -1).map((from, i) => {
    const x = (from + (plane.x_edges[i + 1] ?? from)) / 2;
    return { x, own: found.find((one) => Math.abs(one.x - x) < 1e-6) };
  });
}

function drawCells({ plane, axis }: AtlasAsked, plot: AtlasPlot, { look, units }: Frame) {
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
function drawVehicle({ plane, vehicle, axis }: AtlasAsked, plot: AtlasPlot, look: Look, units: Units) {
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
