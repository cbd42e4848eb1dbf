import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import { bandOpacity, inkOf } from './group-ink.ts';
import {
  axisTitles,
  type Box,
  layLives,
  nameEnds,
  pixelsOf,
  sayTicksOfUse,
  ticksOfUse,
  xAxisOf,
  yAxisOf,
} from './lives-plot.ts';
import type { Look } from './look.ts';
import { polygon, type Shape } from './shapes.ts';
import { bandOf, type Step, stepAt, thinSteps } from './steps.ts';
import { roundTicks } from './ticks.ts';
import { axisTooltip } from './tooltip.ts';
import type { UseAxis } from './use-axis.ts';
import { escapeHtml, placeOf } from './use-tooltip.ts';

/** Below the plot: its axis. */
export const axisPx = 46;

export interface StepCurve {
  /** at the end of the line, and under the pointer */
  name: string;
  steps: readonly Step[];
  /** where it ends */
  last: number;
  /** tone, dash and mark; those of its place unless given */
  ink?: number;
  /** instead of the name at the end of the line */
  endName?: string;
  /** what is said of it under the pointer at x, where the step holds */
  tell: (step: Step, x: number) => string;
  /** places that are marked upon the line */
  marks?: readonly number[];
}

/** What is drawn below the plot must fit to. */
export interface StepPlot {
  box: Box;
  /** of the curves, folded */
  names: readonly string[][];
  /** of the lower axis */
  ticks: readonly number[];
  toX: (x: number) => number;
  look: Look;
}

interface Settings {
  id: string;
  yTitle: string;
  /** end of the upright scale; a band beyond it is cut off */
  top: number;
  sayTick: (value: number) => string;
  /** end of the level scale; where the last curve ends unless given */
  to?: number;
  /** round ones unless given */
  yTicks?: number[];
  /** below the axis */
  below?: { heightPx: number; draw: (plot: StepPlot) => Shape[] };
}

/** Curves that go in steps, with their bounds, each named at its end. */
export function stepOption(
  curves: readonly StepCurve[],
  axis: UseAxis,
  { id, yTitle, top, sayTick, to: end = 0, yTicks, below }: Settings,
  frame: Frame,
): ChartOption {
  const { look } = frame;
  const to = Math.max(end, ...curves.map(({ last }) => last));
  if (to <= 0 || top <= 0) return {};
  const { box, names } = layLives(
    curves.map(({ name, endName }) => endName ?? name),
    frame,
    axisPx + (below?.heightPx ?? 0),
  );
  const pixels = pixelsOf(box, [0, to], [0, top]);
  const ticks = ticksOfUse(to, axis, box.width);
  const endOf = ({ steps }: StepCurve): number => steps.at(-1)?.value ?? 0;
  return {
    grid: [{ id, ...box }],
    textStyle: { fontFamily: look.fontFamily },
    tooltip: {
      ...axisTooltip(look),
      formatter: (items) => {
        const x = placeOf(items);
        if (x === null) return '';
        const lines = curves.flatMap(({ name, steps, last, tell }) => {
          const step = x > last ? null : stepAt(steps, x);
          return step === null ? [] : [`${escapeHtml(name)}: ${tell(step, x)}`];
        });
        return [`<b>${axis.sayExact(x)}</b>`, ...lines].join('<br>');
      },
    },
    xAxis: [xAxisOf({ look, range: [0, to], ticks, say: sayTicksOfUse(ticks, axis) })],
    yAxis: [
      yAxisOf({
        look,
        range: [0, top],
        ticks: yTicks ?? roundTicks(0, top, box.height / 55),
        say: sayTick,
      }),
    ],
    series: curves.flatMap((curve, i) => {
      const { tone, dash, width } = inkOf(curve.ink ?? i, look);
      const line = {
        type: 'line' as const,
        id: `line-${i}`,
        step: 'end' as const,
        symbol: 'none',
        lineStyle: { color: tone, width, type: dash },
        data: [...thinSteps(curve.steps).map(({ x, value }) => [x, value]), [curve.last, endOf(curve)]],
      };
      if (curve.marks === undefined) return [line];
      const marks = {
        type: 'scatter' as const,
        id: `running-${i}`,
        silent: true,
        symbol: 'rect',
        symbolSize: [1.5, 9],
        itemStyle: { color: tone, opacity: 0.4 },
        data: curve.marks.map((x) => [x, stepAt(curve.steps, x)?.value ?? 0]),
      };
      return [line, marks];
    }),
    graphic: {
      elements: [
        ...axisTitles({ x: axis.title, y: yTitle }, box, look),
        ...curves.map(({ steps, last, ink }, i) =>
          polygon(`band-${i}`, 'band', bandOf(thinSteps(steps), last, pixels, top), {
            fill: inkOf(ink ?? i, look).tone,
            opacity: bandOpacity(curves.length),
          }),
        ),
        ...nameEnds(
          curves.map((curve, i) => ({
            i: curve.ink ?? i,
            text: names[i] ?? [],
            xPx: pixels.toX(curve.last),
            yPx: pixels.toY(endOf(curve)),
          })),
          box,
          look,
        ),
        ...(below?.draw({ box, names, ticks, toX: pixels.toX, look }) ?? []),
      ],
    },
  };
}
