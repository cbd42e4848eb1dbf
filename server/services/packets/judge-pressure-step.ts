import type { FindingInput } from '#server/contract/test-steps.ts';
import { judgePressure } from '#server/engine/diagnosis/judge-pressure.ts';
import { decimalsApart, decimalsOf, pressureUnits } from './step-figures.ts';
import { type JudgedFinding, toAsked, toJudged } from './to-judged.ts';

type PressureInput = Extract<FindingInput, { step: 'pressure' }>;

export function judgePressureStep(input: PressureInput): JudgedFinding {
  const { place, unit, off, on, smallest_step: smallestStep, as_measured: asMeasured } = input;
  const judged = judgePressure({ place, unit, off, on, smallestStep, asMeasured });
  if ('asks' in judged) return toAsked(judged);
  const { change, changesFrom, staysBelow } = judged.figures;
  const shown = pressureUnits[unit];
  const [by, from, below] = decimalsApart([change, changesFrom, staysBelow], decimalsOf(smallestStep));
  const way = on >= off ? 'rises' : 'falls';
  const words =
    judged.result === 'pressure_changes'
      ? `Pressure ${way} by ${by} ${shown} when the solenoid is commanded: the valve moves.`
      : judged.result === 'pressure_stays'
        ? change === 0
          ? 'Pressure does not change when the solenoid is commanded.'
          : `Pressure changes by ${by} ${shown} when the solenoid is commanded: too little to be a valve that moves.`
        : `Pressure changes by ${by} ${shown} when the solenoid is commanded: whether the valve moves cannot be told with this gauge.`;
  return toJudged(
    judged,
    words,
    `A change counts, not a figure: it changes from ${from} ${shown} on (two steps of the gauge or 5 % of the larger, whichever is more), does not below ${below} ${shown}, and cannot be told between (common practice, no source; bounds own choice).`,
  );
}
