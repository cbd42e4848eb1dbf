import type { FindingInput, Judgement, StepQuestion } from '#server/contract/test-steps.ts';

/** What judging needs to know of the platform. */
export interface JudgedPlatform {
  limitRpm: number;
  /** the lowest edge of the command bands */
  lowestDutyPct: number;
  solenoid: { ohm: number; supply_v: number; wiring_ohm: number; tolerance_pct: number } | null;
  /** usual slip of healthy vehicles by command; empty where nothing was learned yet */
  healthy: { duty_pct: number; low_rpm: number; usual_rpm: number; high_rpm: number }[];
}

export type JudgedFinding =
  | { kind: 'judged'; judgement: Judgement }
  | { kind: 'asked'; questions: StepQuestion[] };

/** Judges the input of a test step, or asks about what may be a slip of the pen. */
export function judgeFinding(input: FindingInput, _platform: JudgedPlatform): JudgedFinding {
  throw new Error(`judgeFinding cannot judge ${input.step} yet`);
}
