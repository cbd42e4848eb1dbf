import type { FindingInput } from '#server/contract/test-steps.ts';
import { judgeCooler } from '#server/engine/diagnosis/judge-cooler.ts';
import { asEntered, decimalsApart } from './step-figures.ts';
import { type JudgedFinding, toAsked, toJudged } from './to-judged.ts';

type CoolerInput = Extract<FindingInput, { step: 'cooler' }>;

export function judgeCoolerStep({ litres, seconds, as_measured: asMeasured }: CoolerInput): JudgedFinding {
  const judged = judgeCooler({ litres, seconds, asMeasured });
  if ('asks' in judged) return toAsked(judged);
  const { flowLMin, wantedLMin } = judged.figures;
  const [flow, wanted] = decimalsApart([flowLMin, wantedLMin], 1);
  const words =
    judged.result === 'cooler_flows'
      ? `The cooler flows ${flow} L/min.`
      : `The cooler flows ${flow} L/min, less than ${wanted} L/min: cooler or lines are restricted.`;
  return toJudged(
    judged,
    words,
    `60 x ${asEntered(litres)} L / ${asEntered(seconds)} s = ${flow} L/min; at least ${wanted} L/min are wanted at idle (about a quart in 20 s: common practice, from memory, no source).`,
  );
}
