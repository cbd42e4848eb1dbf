import type { StepQuestion } from '#server/contract/test-steps.ts';
import type { Question } from '#server/engine/diagnosis/diagnosis-model.ts';
import { asEntered, pressureUnits } from './step-figures.ts';

const fieldNames: Record<string, string> = {
  offA: 'off_a',
  onA: 'on_a',
  slipRpm: 'slip_rpm',
  smallestStep: 'smallest_step',
};
const toField = (name: string) => fieldNames[name] ?? name;

/** A question of the engine in the contract's shape. */
export function questionWords(question: Question): StepQuestion {
  const { suggestion } = question;
  return {
    field: toField(question.field),
    message: message(question),
    suggestion:
      suggestion === null
        ? null
        : Object.fromEntries(Object.entries(suggestion).map(([name, value]) => [toField(name), value])),
    suggestion_says: suggestion === null ? null : says(question.kind, suggestion),
  };
}

function message({ kind, suggestion }: Question): string {
  switch (kind) {
    case 'negative_current':
      return 'A current below 0: was the clamp or were the leads the wrong way round?';
    case 'swapped':
      return 'More current off than on: were the two swapped?';
    case 'milliamps':
      return `That is more than such a coil can draw, and fits in milliamps: are they ${currents(suggestion)}?`;
    case 'clamp_range':
      return 'More than 40 A at a fuse: is the clamp on another range, or the figure in milliamps?';
    case 'both_zero':
      return 'No pressure at all: was the gauge not connected, or the engine off?';
    case 'negative_pressure':
      return `A pressure below 0: should it be ${asEntered(Number(suggestion?.off))} off and ${asEntered(Number(suggestion?.on))} on?`;
    case 'pressure_unit':
      return `That is more bar than a transmission makes: are the figures in ${unitOf(suggestion)}?`;
    case 'step_over_reading':
      return 'The smallest step is larger than both pressures: is it in another unit?';
    case 'nothing_caught':
      return 'Nothing caught: was it another line than the return, or the engine off?';
    case 'much_flow':
      return 'More than 30 L/min at idle: is there a slip in litres or seconds?';
    case 'negative_slip':
      return `Slip below 0 is overrun: should it be ${asEntered(Number(suggestion?.slipRpm))} rpm?`;
  }
}

type Suggestion = Question['suggestion'];

const currents = (suggestion: Suggestion) =>
  `${asEntered(Number(suggestion?.offA))} A off and ${asEntered(Number(suggestion?.onA))} A on`;

function unitOf(suggestion: Suggestion): string {
  return suggestion?.unit === 'kpa' ? pressureUnits.kpa : pressureUnits.psi;
}

function says(kind: Question['kind'], suggestion: NonNullable<Suggestion>): string {
  switch (kind) {
    case 'swapped':
      return `Yes, swap them: ${currents(suggestion)}`;
    case 'milliamps':
    case 'negative_current':
      return `Yes: ${currents(suggestion)}`;
    case 'pressure_unit':
      return `Yes, ${unitOf(suggestion)}`;
    case 'negative_pressure':
      return `Yes: ${asEntered(Number(suggestion.off))} off and ${asEntered(Number(suggestion.on))} on`;
    case 'negative_slip':
      return `Yes: ${asEntered(Number(suggestion.slipRpm))} rpm`;
    default:
      return 'Yes';
  }
}
