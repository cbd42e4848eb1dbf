import type { LivesGroup } from '#server/contract/lives.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { inkOf } from './group-ink.ts';
import { nameHeight } from './lives-plot.ts';
import { label, type Shape } from './shapes.ts';
import { axisPx, type StepPlot } from './step-option.ts';
import { stepAt } from './steps.ts';
import { countAtRisk, mostAtRisk } from './survival-steps.ts';

const captionPx = 20;

/** What the counts need below the axis: a row for each group, taller where names are folded. */
export const countsHeight = (names: readonly string[][]): number =>
  captionPx + names.length * nameHeight(names) + 4;

/** How many are under watch at a tick; where none is, how many at once near it: a short period is watched between ticks. */
function sayCount(group: LivesGroup, x: number, half: number): string {
  // At 0 stands who is watched from the first kilometre on.
  const there = x === 0 ? (stepAt(group.at_risk, 0)?.n ?? 0) : countAtRisk(group, x);
  const near = there > 0 ? 0 : mostAtRisk(group, x - half, x + half);
  return near > 0 ? `0 to ${formatWhole(near)}` : formatWhole(there);
}

/** A row of counts for each group, each under its tick. */
export function drawCounts(
  groups: readonly LivesGroup[],
  { ticks, box, names, toX, look }: StepPlot,
): Shape[] {
  const top = box.top + box.height + axisPx;
  const rowPx = nameHeight(names);
  const half = ((ticks[1] ?? 0) - (ticks[0] ?? 0)) / 2;
  return [
    label('counts', { text: 'under watch', x: 0, y: top + 8, color: look.inkSoft }, look),
    ...groups.flatMap((group, i) => {
      const y = top + captionPx + i * rowPx + rowPx / 2;
      const color = inkOf(i, look).tone;
      const text = (names[i] ?? []).join('\n');
      return [
        label(`counts-${i}`, { text, x: box.left + box.width + 10, y, color }, look),
        ...ticks.map((x, j) =>
          label(
            `counts-${i}-${j}`,
            { text: sayCount(group, x, half), x: toX(x), y, color: look.inkSoft, align: 'center' },
            look,
          ),
        ),
      ];
    }),
  ];
}
