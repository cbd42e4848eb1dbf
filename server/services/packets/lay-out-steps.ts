import type { Packet, PacketStep } from '#server/contract/packets.ts';
import type { Finding } from '#server/contract/test-steps.ts';
import { type FindingResult, type TestStep, testSteps } from '#server/contract/words.ts';
import { decisionTree } from '#server/engine/diagnosis/decision-tree.ts';
import { type Walk, walkTree } from '#server/engine/diagnosis/walk-tree.ts';
import { expectedWords } from './expected-words.ts';
import type { JudgedPlatform } from './judge-finding.ts';
import { resultWords } from './result-words.ts';
import { packetCautions, stepTexts } from './step-texts.ts';
import { toTree, whyNext, whyNotNeeded } from './tree-words.ts';

type Laid = Pick<Packet, 'cautions' | 'steps' | 'tree' | 'also_found'>;

/** The way that findings, newest first, lead through the decision tree: the last of each step counts. */
export function walkFindings(findings: readonly Pick<Finding, 'step' | 'result'>[]): Walk {
  const results: Partial<Record<TestStep, FindingResult>> = {};
  for (const { step, result } of findings) results[step] ??= result;
  return walkTree(decisionTree, results);
}

/** The test steps with what was found, and the way through the decision tree. `findings` newest first. */
export function layOutSteps(findings: readonly Finding[], platform: JudgedPlatform): Laid {
  const ofStep = (step: TestStep) => findings.filter((finding) => finding.step === step);
  const walk = walkFindings(findings);
  const steps = testSteps.map((step): PacketStep => {
    const { title, whatFor, how, cautions } = stepTexts[step];
    const [last = null, ...earlier] = ofStep(step);
    const past = walk.notNeeded.find((one) => one.step === step);
    const state =
      last !== null ? 'done' : step === walk.next ? 'next' : past !== undefined ? 'not_needed' : 'open';
    return {
      step,
      title,
      what_for: whatFor,
      how,
      cautions,
      state,
      why:
        state === 'not_needed' && past !== undefined
          ? whyNotNeeded(past)
          : state === 'next'
            ? whyNext(walk)
            : null,
      finding: last,
      earlier,
      expected: expectedWords(step, platform),
    };
  });
  return {
    cautions: packetCautions,
    steps,
    tree: {
      nodes: toTree(),
      path: walk.path,
    },
    also_found: walk.aside.map(({ step, result }) => ({ step, words: resultWords[result] })),
  };
}
