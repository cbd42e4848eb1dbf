import type { FindingInput } from '#server/contract/test-steps.ts';
import { type Debris, judgePan } from '#server/engine/diagnosis/judge-pan.ts';
import { type JudgedFinding, toJudged } from './to-judged.ts';

type PanInput = Extract<FindingInput, { step: 'pan' }>;

const words: Record<Debris, string> = {
  none: 'The pan is clean.',
  fine: 'Fine grey paste in the pan, as is usual.',
  lining: 'Flakes of lining in the pan: consistent with a converter clutch that came apart.',
  metal: 'Metal in the pan: something inside breaks up, in the converter or elsewhere in the transmission.',
};

export function judgePanStep({ debris }: PanInput): JudgedFinding {
  return toJudged(
    judgePan(debris),
    words[debris],
    'A clean pan or fine grey paste passes; flakes of lining or metal do not, and then cooler and lines must be flushed or replaced (common practice, no source).',
  );
}
