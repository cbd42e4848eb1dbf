import type { LifeSource, Outcome, TestStep, Verdict } from '#server/contract/words.ts';

export const stepNames: Record<TestStep, string> = {
  fluid: 'Fluid',
  road_test: 'Road test',
  solenoid_current: 'Solenoid current',
  pressure: 'Pressure',
  pan: 'Pan',
  cooler: 'Cooler flow',
};

export const verdictWords: Record<Verdict, string> = {
  passed: 'passed',
  failed: 'failed',
  unclear: 'unclear',
};

/** What each way to close a job means, under its name. */
export const outcomeHints: Record<Outcome, string> = {
  repaired: 'Something was replaced or put right.',
  no_fault_found: 'The steps were done and show nothing wrong.',
  declined: 'The work was not done. The reason is kept.',
};

export const sourceWords: Record<Exclude<LifeSource, 'original'>, string> = {
  new: 'new',
  rebuilt: 'rebuilt',
  used: 'used',
};

export const optionsOf = <T extends string>(
  words: Readonly<Record<T, string>>,
): { value: T; label: string }[] =>
  (Object.keys(words) as T[]).map((value) => ({ value, label: words[value] }));
