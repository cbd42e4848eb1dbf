import type { FindingInput } from '#server/contract/test-steps.ts';
import { judgeFluid } from '#server/engine/diagnosis/judge-fluid.ts';
import { type JudgedFinding, toJudged } from './to-judged.ts';

type FluidInput = Extract<FindingInput, { step: 'fluid' }>;

export function judgeFluidStep(input: FluidInput): JudgedFinding {
  const judged = judgeFluid(input);
  const { burnt, levelWrong } = judged.figures;
  const words = () => {
    switch (judged.result) {
      case 'coolant_in_fluid':
        return `Fluid is milky: consistent with coolant in it${levelWrong ? `; its level is ${input.level}` : ''}.`;
      case 'level_low':
      case 'level_high':
        return `Fluid level is ${input.level}${burnt ? ', and the fluid is burnt' : ''}.`;
      case 'fluid_burnt':
        return `Fluid is ${input.colour === 'black' ? 'black' : 'burnt by its smell'}${judged.figures.levelChecked ? '; its level is right' : '; its level was not checked'}.`;
      case 'fluid_right':
        return judged.figures.levelChecked
          ? 'Fluid is right by level, colour and smell.'
          : 'Fluid is right by colour and smell; its level was not checked.';
    }
  };
  return toJudged(
    judged,
    words(),
    'Passes where the level is right and the fluid is neither milky, black nor burnt by its smell; a wrong level counts before burnt fluid (common practice, no source).',
  );
}
