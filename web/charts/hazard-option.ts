import type { LivesGroup } from '#server/contract/lives.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import { stepOption } from './step-option.ts';
import type { Step } from './steps.ts';
import { lastSeen } from './survival-steps.ts';
import type { UseAxis } from './use-axis.ts';

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
  const curves = groups.map((group) => ({
    name: group.name,
    steps: hazardSteps(group, errors),
    last: lastSeen(group),
    tell: tellHazard,
  }));
  const highest = Math.max(0, ...curves.map(({ steps }) => steps.at(-1)?.value ?? 0));
  return stepOption(
    curves,
    axis,
    {
      id: 'hazard',
      yTitle: 'cumulative hazard',
      top: highest * mostAbove,
      sayTick: (value) => String(Number(value.toPrecision(3))),
    },
    frame,
  );
}

const tellHazard = ({ value, low, high }: Step): string =>
  value === 0 ? '0' : `${value.toFixed(2)} (${low.toFixed(2)} to ${high.toFixed(2)})`;
