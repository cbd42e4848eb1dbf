import type { LivesGroup } from '#server/contract/lives.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import { bandOpacity, inkOf } from './group-ink.ts';
import {
  axisTitles,
  type Box,
  foldNames,
  layLives,
  nameEnds,
  nameHeight,
  pixelsOf,
  sayTicksOfUse,
  ticksOfUse,
  xAxisOf,
  yAxisOf,
} from './lives-plot.ts';
import type { Look } from './look.ts';
import { label, polygon, type Shape } from './shapes.ts';
import { bandOf, stepAt, thinSteps } from './steps.ts';
import { countAtRisk, lastSeen, mostAtRisk, survivalSteps } from './survival-steps.ts';
import { axisTooltip } from './tooltip.ts';
import type { UseAxis } from './use-axis.ts';
import { escapeHtml, placeOf } from './use-tooltip.ts';

const axisPx = 46;
const plotPx = 300;
const captionPx = 20;
/** of every look */
const smallPx = 13;

/** Below the plot: its axis, and a row of counts for each group. */
const footOf = (names: readonly string[][]): number =>
  axisPx + captionPx + names.length * nameHeight(names) + 4;

/** Height of the drawing at a width: folded names need taller rows. */
export const survivalHeight = (groups: readonly { name: string }[], widthPx: number): number =>
  26 +
  plotPx +
  footOf(
    foldNames(
      groups.map(({ name }) => name),
      widthPx,
      smallPx,
    ),
  );

/** Share that still runs, group by group, with bounds, and how many are under watch below it. */
export function survivalOption(groups: readonly LivesGroup[], axis: UseAxis, frame: Frame): ChartOption {
  const { look } = frame;
  const to = Math.max(0, ...groups.map(lastSeen));
  if (to === 0) return {};
  const all = groups.map(({ name }) => name);
  const { box, names } = layLives(all, frame, footOf(foldNames(all, frame.widthPx, look.smallPx)));
  const pixels = pixelsOf(box, [0, to], [0, 1]);
  const ticks = ticksOfUse(to, axis, box.width);
  const drawn = groups.map((group) => ({ group, last: lastSeen(group), steps: survivalSteps(group) }));
  return {
    grid: [{ id: 'survival', ...box }],
    textStyle: { fontFamily: look.fontFamily },
    tooltip: {
      ...axisTooltip(look),
      formatter: (items) => tellPlace(groups, placeOf(items), axis),
    },
    xAxis: [xAxisOf({ look, range: [0, to], ticks, say: sayTicksOfUse(ticks, axis) })],
    yAxis: [
      yAxisOf({ look, range: [0, 1], ticks: [0, 0.25, 0.5, 0.75, 1], say: (share) => formatPercent(share) }),
    ],
    series: drawn.flatMap(({ group, last, steps }, i) => {
      const { tone, dash, width } = inkOf(i, look);
      const line = thinSteps(steps).map(({ x, value }) => [x, value]);
      return [
        {
          type: 'line' as const,
          id: `line-${i}`,
          step: 'end' as const,
          symbol: 'none',
          lineStyle: { color: tone, width, type: dash },
          data: [...line, [last, steps.at(-1)?.value ?? 1]],
        },
        {
          type: 'scatter' as const,
          id: `running-${i}`,
          silent: true,
          symbol: 'rect',
          symbolSize: [1.5, 9],
          itemStyle: { color: tone, opacity: 0.4 },
          data: group.running_at.map((x) => [x, stepAt(steps, x)?.value ?? 1]),
        },
      ];
    }),
    graphic: {
      elements: [
        ...axisTitles({ x: axis.title, y: 'still running' }, box, look),
        ...drawn.map(({ steps, last }, i) =>
          polygon(`band-${i}`, 'band', bandOf(thinSteps(steps), last, pixels, 1), {
            fill: inkOf(i, look).tone,
            opacity: bandOpacity(groups.length),
          }),
        ),
        ...nameEnds(
          drawn.map(({ last, steps }, i) => ({
            i,
            text: names[i] ?? [],
            xPx: pixels.toX(last),
            yPx: pixels.toY(steps.at(-1)?.value ?? 1),
          })),
          box,
          look,
        ),
        ...drawCounts(groups, names, { ticks, box, toX: pixels.toX, look }),
      ],
    },
  };
}

interface Counts {
  ticks: readonly number[];
  box: Box;
  toX: (x: number) => number;
  look: Look;
}

/** How many are under watch at a tick; where none is, how many at once near it: a short period is watched between ticks. */
function sayCount(group: LivesGroup, x: number, half: number): string {
  // At 0 stands who is watched from the first kilometre on.
  const there = x === 0 ? (stepAt(group.at_risk, 0)?.n ?? 0) : countAtRisk(group, x);
  const near = there > 0 ? 0 : mostAtRisk(group, x - half, x + half);
  return near > 0 ? `0 to ${formatWhole(near)}` : formatWhole(there);
}

/** A row of counts for each group, each under its tick. */
function drawCounts(
  groups: readonly LivesGroup[],
  names: readonly string[][],
  { ticks, box, toX, look }: Counts,
): Shape[] {
  const top = box.top + box.height + axisPx;
  const rowPx = nameHeight(names);
  const half = ((ticks[1] ?? 0) - (ticks[0] ?? 0)) / 2;
  return [
    label('counts', { text: 'under watch', x: 0, y: top + 8, color: look.inkSoft }, look),
    ...groups.flatMap((group, i) => {
      const y = top + captionPx + i * rowPx + rowPx / 2;
      const color = inkOf(i, look).tone;
      return [
        label(
          `counts-${i}`,
          { text: (names[i] ?? []).join('\n'), x: box.left + box.width + 10, y, color },
          look,
        ),
        ...ticks.map((x, j) =>
          label(
            `counts-${i}-${j}`,
            {
              text: sayCount(group, x, half),
              x: toX(x),
              y,
              color: look.inkSoft,
              align: 'center',
            },
            look,
          ),
        ),
      ];
    }),
  ];
}

function tellPlace(groups: readonly LivesGroup[], x: number | null, axis: UseAxis): string {
  if (x === null) return '';
  const lines = groups.flatMap((group) => {
    if (x > lastSeen(group)) return [];
    const step = stepAt(survivalSteps(group), x);
    if (step === null) return [];
    const bounds =
      step.low === step.high ? '' : ` (${formatPercent(step.low)} to ${formatPercent(step.high)})`;
    const watched = `${formatWhole(countAtRisk(group, x))} under watch`;
    return [`${escapeHtml(group.name)}: ${formatPercent(step.value)}${bounds}, ${watched}`];
  });
  return [`<b>${axis.sayExact(x)}</b>`, ...lines].join('<br>');
}
