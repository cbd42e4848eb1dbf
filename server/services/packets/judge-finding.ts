import type { FindingInput } from '#server/contract/test-steps.ts';
import { judgeCoolerStep } from './judge-cooler-step.ts';
import { judgeCurrentStep } from './judge-current-step.ts';
import { judgeFluidStep } from './judge-fluid-step.ts';
import { judgePanStep } from './judge-pan-step.ts';
import { judgePressureStep } from './judge-pressure-step.ts';
import { judgeRoadTestStep } from './judge-road-test-step.ts';
import type { JudgedPlatform } from './judged-by.ts';
import type { JudgedFinding } from './to-judged.ts';

export type { JudgedPlatform };

/** Judges the input of a test step, or asks about what may be a slip of the pen. */
export function judgeFinding(input: FindingInput, platform: JudgedPlatform): JudgedFinding {
  switch (input.step) {
    case 'fluid':
      return judgeFluidStep(input);
    case 'road_test':
      return judgeRoadTestStep(input, platform);
    case 'solenoid_current':
      return judgeCurrentStep(input, platform);
    case 'pressure':
      return judgePressureStep(input);
    case 'pan':
      return judgePanStep(input);
    case 'cooler':
      return judgeCoolerStep(input);
  }
}
