import type { FindingInput } from '#server/contract/test-steps.ts';
import type { LookAt } from '#server/engine/diagnosis/diagnosis-model.ts';
import { COPPER_PER_K, HOT_COIL_C } from '#server/engine/diagnosis/expected-current.ts';
import {
  type CurrentFigures,
  judgeSolenoidCurrent,
} from '#server/engine/diagnosis/judge-solenoid-current.ts';
import { currentArithmetic } from './expected-words.ts';
import type { JudgedPlatform } from './judged-by.ts';
import { ampsApart, asEntered } from './step-figures.ts';
import { type JudgedFinding, toAsked, toJudged } from './to-judged.ts';
import { toSolenoid } from './to-solenoid.ts';

type CurrentInput = Extract<FindingInput, { step: 'solenoid_current' }>;

export function judgeCurrentStep(input: CurrentInput, { solenoid }: JudgedPlatform): JudgedFinding {
  const { off_a: offA, on_a: onA, click, as_measured: asMeasured } = input;
  const figures = solenoid === null ? null : toSolenoid(solenoid, input.supply_v);
  const judged = judgeSolenoidCurrent({ offA, onA, click, asMeasured }, figures);
  if ('asks' in judged) return toAsked(judged);
  const rule =
    solenoid === null
      ? 'This platform lacks the figures of its solenoid. About 1 A is usual for a coil of low resistance (common practice, no source): 0.5 to 3 A pass, outside of that it cannot be told.'
      : `Right where on less off is ${currentArithmetic(solenoid, input.supply_v)}${input.supply_v === undefined ? '' : ', the supply as measured'} (Ohm's law; coil, supply, wiring and tolerance as set for the platform). No change is less than 10 % of that (own choice).`;
  return toJudged(
    judged,
    currentWords(judged.result, judged.figures, input),
    rule,
    heatWords(judged.figures),
  );
}

function currentWords(result: string, { changeA, lowA, highA }: CurrentFigures, input: CurrentInput): string {
  const [change, low, high] = ampsApart([changeA, lowA, highA]);
  const [off, on] = [`${asEntered(input.off_a)} A`, `${asEntered(input.on_a)} A`];
  switch (result) {
    case 'current_right':
      return `Current changes by ${change} A, as it should: coil, wiring, driver and command are right together.`;
    case 'no_current':
      return input.off_a === 0 && input.on_a === 0
        ? 'No current, commanded or not.'
        : `Current hardly changes, ${off} off and ${on} on, and is less than the solenoid draws.`;
    case 'current_stays':
      return `Current is there whether commanded or not: ${off} off, ${on} on.`;
    case 'current_high':
      return `Current changes by ${change} A, more than ${high} A.`;
    default:
      return `Current changes by ${change} A, less than ${low} A.`;
  }
}

function heatWords({ expected }: CurrentFigures): Partial<Record<LookAt, string>> {
  if (expected === null) return {};
  const [hot, cold] = ampsApart([expected.hotA, expected.expectedA]);
  return {
    coil_heat: `Heat: copper gains ${(100 * COPPER_PER_K).toFixed(2)} % of resistance a kelvin (IEC 60028, from memory), so a coil at ${HOT_COIL_C} °C draws ${hot} A instead of ${cold} A. Measure again with the coil cold.`,
  };
}
