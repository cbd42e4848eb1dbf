import type { IncidenceCurve } from '#server/contract/lives.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import { bandOpacity, inkOf } from './group-ink.ts';
import { plainUse } from './list-survival-numbers.ts';
import {
  axisTitles,
  layLives,
  nameEnds,
  pixelsOf,
  sayTicksOfUse,
  ticksOfUse,
  xAxisOf,
  yAxisOf,
} from './lives-plot.ts';
import type { NumbersTable } from './numbers.ts';
import { polygon } from './shapes.ts';
import { bandOf, type Step, stepAt, thinSteps } from './steps.ts';
import { roundTicks } from './ticks.ts';
import { axisTooltip } from './tooltip.ts';
import type { UseAxis } from './use-axis.ts';
import { escapeHtml, placeOf } from './use-tooltip.ts';

const footPx = 46;

const incidenceSteps = ({ points }: IncidenceCurve, errors: number): Step[] => [
  { x: 0, value: 0, low: 0, high: 0 },
  ...points.map(({ x, incidence: value, se }) => ({
    x,
    value,
    low: Math.max(0, value - errors * se),
    high: Math.min(1, value + errors * se),
  })),
];

interface Settings {
  /** where the last life was seen */
  to: number;
  errors: number;
}

/** Share that has failed of each mode, the others being in its way. */
export function incidenceOption(
  curves: readonly IncidenceCurve[],
  axis: UseAxis,
  { to, errors }: Settings,
  frame: Frame,
): ChartOption {
  const { look } = frame;
  const drawn = curves.map((curve) => incidenceSteps(curve, errors));
  const most = Math.max(0, ...drawn.flatMap((steps) => steps.map(({ high }) => high)));
  if (to <= 0 || most <= 0) return {};
  const top = Math.min(1, most * 1.08);
  const ends = drawn.map((steps) => steps.at(-1)?.value ?? 0);
  const { box, names } = layLives(
    curves.map(({ mode }, i) => `${mode}, ${formatPercent(ends[i])}`),
    frame,
    footPx,
  );
  const pixels = pixelsOf(box, [0, to], [0, top]);
  const ticks = ticksOfUse(to, axis, box.width);
  return {
    grid: [{ id: 'incidence', ...box }],
    textStyle: { fontFamily: look.fontFamily },
    tooltip: {
      ...axisTooltip(look),
      formatter: (items) => {
        const x = placeOf(items);
        if (x === null) return '';
        const lines = drawn.map((steps, i) => {
          const { value = 0, low = 0, high = 0 } = stepAt(steps, x) ?? {};
          const bounds = value === 0 ? '' : ` (${formatPercent(low)} to ${formatPercent(high)})`;
          return `${escapeHtml(curves[i]?.mode ?? '')}: ${formatPercent(value)}${bounds}`;
        });
        return [`<b>${axis.sayExact(x)}</b>`, ...lines].join('<br>');
      },
    },
    xAxis: [xAxisOf({ look, range: [0, to], ticks, say: sayTicksOfUse(ticks, axis) })],
    yAxis: [
      yAxisOf({
        look,
        range: [0, top],
        ticks: roundTicks(0, top, box.height / 55),
        say: (share) => `${Number((share * 100).toPrecision(3))} %`,
      }),
    ],
    series: drawn.map((steps, i) => {
      const { tone, dash, width } = inkOf(i, look);
      return {
        type: 'line' as const,
        id: `line-${i}`,
        step: 'end' as const,
        symbol: 'none',
        lineStyle: { color: tone, width, type: dash },
        data: [...thinSteps(steps).map(({ x, value }) => [x, value]), [to, ends[i] ?? 0]],
      };
    }),
    graphic: {
      elements: [
        ...axisTitles({ x: axis.title, y: 'failed of the mode' }, box, look),
        ...drawn.map((steps, i) =>
          polygon(`band-${i}`, 'band', bandOf(thinSteps(steps), to, pixels, top), {
            fill: inkOf(i, look).tone,
            opacity: bandOpacity(curves.length),
          }),
        ),
        ...nameEnds(
          ends.map((value, i) => ({
            i,
            text: names[i] ?? [],
            xPx: pixels.toX(to),
            yPx: pixels.toY(value),
          })),
          box,
          look,
        ),
      ],
    },
  };
}

export const listIncidenceNumbers = (curves: readonly IncidenceCurve[], axis: UseAxis): NumbersTable[] =>
  curves.map(({ mode, points }) => ({
    caption: `Failed of the mode ${mode}`,
    columns: [
      { title: axis.unit, kind: 'figure' },
      { title: 'failed', kind: 'figure' },
      { title: 'error', kind: 'figure' },
    ],
    rows: points.map(({ x, incidence, se }) => [plainUse(x, axis), incidence.toFixed(4), se.toFixed(4)]),
  }));
