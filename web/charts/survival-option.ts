import type { LivesGroup } from '#server/contract/lives.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import type { ChartOption } from './chart.tsx';
import { countsHeight, drawCounts } from './draw-counts.ts';
import type { Frame } from './frame.ts';
import { foldNames } from './lives-plot.ts';
import { axisPx, stepOption } from './step-option.ts';
import type { Step } from './steps.ts';
import { countAtRisk, lastSeen, survivalSteps } from './survival-steps.ts';
import type { UseAxis } from './use-axis.ts';

const plotPx = 300;
/** of every look */
const smallPx = 13;

const heightOfCounts = (groups: readonly { name: string }[], widthPx: number, sizePx: number): number =>
  countsHeight(
    foldNames(
      groups.map(({ name }) => name),
      widthPx,
      sizePx,
    ),
  );

/** Height of the drawing at a width: folded names need taller rows. */
export const survivalHeight = (groups: readonly { name: string }[], widthPx: number): number =>
  26 + plotPx + axisPx + heightOfCounts(groups, widthPx, smallPx);

/** Share that still runs, group by group, with bounds, and how many are under watch below it. */
export function survivalOption(groups: readonly LivesGroup[], axis: UseAxis, frame: Frame): ChartOption {
  const curves = groups.map((group) => ({
    name: group.name,
    steps: survivalSteps(group),
    last: lastSeen(group),
    marks: group.running_at,
    tell: (step: Step, x: number) => `${tellShare(step)}, ${formatWhole(countAtRisk(group, x))} under watch`,
  }));
  return stepOption(
    curves,
    axis,
    {
      id: 'survival',
      yTitle: 'still running',
      top: 1,
      sayTick: (share) => formatPercent(share),
      yTicks: [0, 0.25, 0.5, 0.75, 1],
      below: {
        heightPx: heightOfCounts(groups, frame.widthPx, frame.look.smallPx),
        draw: (plot) => drawCounts(groups, plot),
      },
    },
    frame,
  );
}

const tellShare = ({ value, low, high }: Step): string =>
  low === high
    ? formatPercent(value)
    : `${formatPercent(value)} (${formatPercent(low)} to ${formatPercent(high)})`;
