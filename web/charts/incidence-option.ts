import type { IncidenceCurve } from '#server/contract/lives.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import { plainUse } from './list-survival-numbers.ts';
import type { NumbersTable } from './numbers.ts';
import { stepOption } from './step-option.ts';
import type { Step } from './steps.ts';
import type { UseAxis } from './use-axis.ts';

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
  /** of each curve; in their order unless given */
  inks?: readonly number[];
  /** ends of the scales, where several drawings are to be compared */
  scale?: IncidenceScale;
}

export interface IncidenceScale {
  to: number;
  most: number;
}

/** How far up the bounds of the curves go. */
export const highest = (curves: readonly IncidenceCurve[], errors: number): number =>
  Math.max(0, ...curves.flatMap((curve) => incidenceSteps(curve, errors).map(({ high }) => high)));

/** Share that has failed of each mode, the others being in its way. */
export function incidenceOption(
  curves: readonly IncidenceCurve[],
  axis: UseAxis,
  { to, errors, inks, scale }: Settings,
  frame: Frame,
): ChartOption {
  const drawn = curves.map((curve, i) => {
    const steps = incidenceSteps(curve, errors);
    const name = curve.mode;
    return {
      name,
      ink: inks?.[i] ?? i,
      endName: `${name}, ${formatPercent(steps.at(-1)?.value)}`,
      steps,
      last: to,
      tell: tellShare,
    };
  });
  const most = scale?.most ?? highest(curves, errors);
  return stepOption(
    drawn,
    axis,
    {
      id: 'incidence',
      yTitle: 'failed of the mode',
      top: Math.min(1, most * 1.08),
      to: scale?.to ?? to,
      sayTick: (share) => `${Number((share * 100).toPrecision(3))} %`,
    },
    frame,
  );
}

const tellShare = ({ value, low, high }: Step): string =>
  value === 0
    ? formatPercent(0)
    : `${formatPercent(value)} (${formatPercent(low)} to ${formatPercent(high)})`;

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
