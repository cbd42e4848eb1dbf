import type { Judgement } from '#server/contract/test-steps.ts';
import type { FindingResult, Verdict } from '#server/contract/words.ts';
import { fallsAway } from '#server/engine/road-trace/falls-away.ts';
import type { JudgedTrace } from '#server/engine/road-trace/judge-steady.ts';
import type { SteadyStretch } from '#server/engine/road-trace/trace-model.ts';

export interface TraceFacts {
  limitRpm: number;
  hasHealthy: boolean;
  /** the reason that set most time aside, in words; null where nothing was */
  mostAside: string | null;
}

type Told = Pick<Judgement, 'words' | 'look_next'> & { verdict: Verdict };

/** What a recorded road test came to, in words. */
export function sayTraceJudgement(judged: JudgedTrace, facts: TraceFacts): Judgement {
  const { words, verdict, look_next } = tell(judged, facts);
  const result: FindingResult = judged.result;
  return { result, verdict, words, rule: sayRule(judged, facts), look_next };
}

function tell(judged: JudgedTrace, { limitRpm, hasHealthy, mostAside }: TraceFacts): Told {
  const { result, stretch, healthy, lockedS, withinS } = judged;
  if (result === 'too_little_steady' || stretch === null)
    return {
      verdict: 'unclear',
      words: `Too little steady driving: ${seconds(withinS)} s at 70 % command or more${withinS < lockedS ? ` of ${seconds(lockedS)} s` : ''} count; 20 s are needed.${mostAside === null ? '' : ` Most of the rest was set aside: ${mostAside}.`}`,
      look_next: [
        'Record again: fluid warm, level road, throttle still, lockup commanded at 70 % or more for 20 s or longer',
        'A second person records; the driver drives',
      ],
    };
  const at = `${rpm(stretch.slipRpm)} rpm at ${percent(stretch.dutyPct)} % command`;
  const held = `${seconds(secondsOf(stretch))} s`;
  if (result === 'slips')
    return {
      verdict: 'failed',
      words: `The clutch slips: ${at}, held for ${held}, and slip does not fall. The limit is ${rpm(limitRpm)} rpm.`,
      look_next: [
        'Solenoid current, commanded off and on: does the command arrive?',
        'Pressure at the clutch, off and on: is the clutch fed?',
        'Pan: lining or metal?',
      ],
    };
  if (result === 'slip_raised')
    return {
      verdict: 'unclear',
      words: fallsLate(stretch, limitRpm)
        ? `Slip is raised: ${at} over ${held}, falling while the command was held. The clutch takes hold late.`
        : `Slip is raised: ${at} over ${held}.${healthy === null ? '' : ` Healthy vehicles of this platform have ${rpm(healthy.lowRpm)} to ${rpm(healthy.highRpm)} rpm there.`} The limit is ${rpm(limitRpm)} rpm.`,
      look_next: [
        'Drive it again as it is driven at work: hot fluid, load, longest hill',
        'Solenoid current and pressure, commanded off and on',
      ],
    };
  const level = hasHealthy
    ? 'within the range of healthy vehicles'
    : `under the limit of ${rpm(limitRpm)} rpm`;
  return {
    verdict: 'passed',
    words: `The clutch holds in this test: ${seconds(withinS)} s at 70 % command or more with slip ${level}; ${at} over the longest stretch of ${held}.`,
    look_next: [
      'Was it as hot and as loaded as when it was flagged? A clutch that is weak only then holds here',
    ],
  };
}

function sayRule(judged: JudgedTrace, { limitRpm, hasHealthy }: TraceFacts): string {
  const healthy =
    judged.result === 'holds' && hasHealthy && judged.healthy === null
      ? 'No healthy range is known at this command: judged by the limit.'
      : hasHealthy
        ? 'Raised is above the range that 95 % of healthy vehicles of this platform have at the command, near the load and fluid temperature at which it compares.'
        : 'No healthy range is known of this platform yet: judged by the limit alone.';
  return [
    `Slips: 5 s or more at 70 % command or more with median slip above the limit of ${rpm(limitRpm)} rpm that would not be gone within 60 s at the rate at which it falls; some 540 rpm at about 78 % command that do not fall are a clear case.`,
    healthy,
    'Holds: 20 s at 70 % command or more within it.',
    'Common practice, no source.',
  ].join(' ');
}

const fallsLate = (stretch: SteadyStretch, limitRpm: number): boolean =>
  stretch.slipRpm > limitRpm && fallsAway(stretch);
const secondsOf = ({ fromMs, toMs }: SteadyStretch): number => (toMs - fromMs) / 1000;
const seconds = (value: number): string => String(Math.round(value));
const percent = (value: number): string => String(Math.round(value));
/** Slip is not known to the rpm where there is much of it. */
const rpm = (value: number): string =>
  String(value >= 200 ? 10 * Math.round(value / 10) : Math.round(value)).replace('-', '−');
