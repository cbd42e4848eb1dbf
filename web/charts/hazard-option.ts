import type { LivesGroup } from '#server/contract/lives.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import { bandOpacity, inkOf } from './group-ink.ts';
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
import { polygon } from './shapes.ts';
import { bandOf, type Step, stepAt, thinSteps } from './steps.ts';
import { lastSeen } from './survival-steps.ts';
import { roundTicks } from './ticks.ts';
import { axisTooltip } from './tooltip.ts';
import type { UseAxis } from './use-axis.ts';
import { escapeHtml, placeOf } from './use-tooltip.ts';

const footPx = 46;
/** A bound far above every curve would press them flat: the scale ends before it. */
const mostAbove = 1.35;

/** Cumulative hazard with bounds on its logarithm, which keep above 0. */
export const hazardSteps = ({ nelson_aalen: points }: LivesGroup, errors: number): Step[] => [
  { x: 0, value: 0, low: 0, high: 0 },
  ...points.map(({ x, cumulative_hazard: value, se }) => {
    const factor = value > 0 ? Math.exp((errors * se) / value) : 1;
    return { x, value, low: value / factor, high: value * factor };
  }),
];

/** Failures that each group has gathered: straight where they come by chance, bent up where they wear. */
export function hazardOption(
  groups: readonly LivesGroup[],
  axis: UseAxis,
  errors: number,
  frame: Frame,
): ChartOption {
  const { look } = frame;
  const to = Math.max(0, ...groups.map(lastSeen));
  const drawn = groups.map((group) => ({ last: lastSeen(group), steps: hazardSteps(group, errors) }));
  const highest = Math.max(0, ...drawn.map(({ steps }) => steps.at(-1)?.value ?? 0));
  if (to === 0 || highest === 0) return {};
  const top = highest * mostAbove;
  const { box, names } = layLives(
    groups.map(({ name }) => name),
    frame,
    footPx,
  );
  const pixels = pixelsOf(box, [0, to], [0, top]);
  const ticks = ticksOfUse(to, axis, box.width);
  return {
    grid: [{ id: 'hazard', ...box }],
    textStyle: { fontFamily: look.fontFamily },
    tooltip: {
      ...axisTooltip(look),
      formatter: (items) => {
        const x = placeOf(items);
        if (x === null) return '';
        const lines = drawn.flatMap(({ steps, last }, i) => {
          const step = x > last ? null : stepAt(steps, x);
          return step === null ? [] : [`${escapeHtml(groups[i]?.name ?? '')}: ${tellHazard(step)}`];
        });
        return [`<b>${axis.sayExact(x)}</b>`, ...lines].join('<br>');
      },
    },
    xAxis: [xAxisOf({ look, range: [0, to], ticks, say: sayTicksOfUse(ticks, axis) })],
    yAxis: [yAxisOf({ look, range: [0, top], ticks: roundTicks(0, top, box.height / 55), say: sayHazard })],
    series: drawn.map(({ last, steps }, i) => {
      const { tone, dash, width } = inkOf(i, look);
      return {
        type: 'line' as const,
        id: `line-${i}`,
        step: 'end' as const,
        symbol: 'none',
        lineStyle: { color: tone, width, type: dash },
        data: [...thinSteps(steps).map(({ x, value }) => [x, value]), [last, steps.at(-1)?.value ?? 0]],
      };
    }),
    graphic: {
      elements: [
        ...axisTitles({ x: axis.title, y: 'cumulative hazard' }, box, look),
        ...drawn.map(({ steps, last }, i) =>
          polygon(`band-${i}`, 'band', bandOf(thinSteps(steps), last, pixels, top), {
            fill: inkOf(i, look).tone,
            opacity: bandOpacity(groups.length),
          }),
        ),
        ...nameEnds(
          drawn.map(({ last, steps }, i) => ({
            i,
            text: names[i] ?? [],
            xPx: pixels.toX(last),
            yPx: pixels.toY(steps.at(-1)?.value ?? 0),
          })),
          box,
          look,
        ),
      ],
    },
  };
}

const sayHazard = (value: number): string => String(Number(value.toPrecision(3)));
const tellHazard = ({ value, low, high }: Step): string =>
  value === 0 ? '0' : `${value.toFixed(2)} (${low.toFixed(2)} to ${high.toFixed(2)})`;
