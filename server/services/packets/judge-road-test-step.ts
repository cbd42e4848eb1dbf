import type { FindingInput } from '#server/contract/test-steps.ts';
import type { RoadTestResult } from '#server/engine/diagnosis/diagnosis-model.ts';
import {
  HELD_S,
  judgeTypedRoadTest,
  LOCKED_DUTY_PCT,
  type RoadTestFigures,
} from '#server/engine/diagnosis/judge-typed-road-test.ts';
import { rpmApart } from '#server/services/words/figures-apart.ts';
import type { JudgedPlatform } from './judged-by.ts';
import { asEntered } from './step-figures.ts';
import { type JudgedFinding, toAsked, toJudged } from './to-judged.ts';

type RoadTestInput = Extract<FindingInput, { step: 'road_test' }>;

/** Judges figures that were read off an instrument, where no trace was recorded. */
export function judgeRoadTestStep(input: RoadTestInput, platform: JudgedPlatform): JudgedFinding {
  const { duty_pct: dutyPct, slip_rpm: slipRpm, seconds, falls, as_measured: asMeasured } = input;
  const { limitRpm, lowestDutyPct, healthy } = platform;
  const judged = judgeTypedRoadTest(
    { dutyPct, slipRpm, seconds, falls, asMeasured },
    { limitRpm, lowestDutyPct, healthy },
  );
  if ('asks' in judged) return toAsked(judged);
  return toJudged(
    judged,
    roadTestWords(judged.result, judged.figures, input, lowestDutyPct),
    roadTestRule(judged.figures, input, lowestDutyPct),
  );
}

function roadTestWords(
  result: RoadTestResult,
  { limitRpm, healthy, tooLittle }: RoadTestFigures,
  input: RoadTestInput,
  lowestDutyPct: number,
): string {
  const duty = `${asEntered(input.duty_pct)} % command`;
  const against = (rpm: number) => rpmApart(input.slip_rpm, rpm) ?? [say(input.slip_rpm), say(rpm)];
  switch (result) {
    case 'slips': {
      const [slip, limit] = against(limitRpm);
      return `Slip of ${slip} at ${duty} for ${asEntered(input.seconds)} s does not fall, over the limit of ${limit}: the clutch slips.`;
    }
    case 'holds': {
      if (healthy === null) {
        const [slip, limit] = against(limitRpm);
        return `Slip of ${slip} at ${duty} is within the limit of ${limit}; what is healthy at this command is not known yet.`;
      }
      return `Slip of ${say(input.slip_rpm)} at ${duty} is as on healthy vehicles of this platform: the clutch holds.`;
    }
    case 'slip_raised': {
      if (healthy === null || healthy.highRpm >= limitRpm) {
        const [slip, limit] = against(limitRpm);
        return `Slip of ${slip} at ${duty} is over the limit of ${limit}${input.falls ? ', and still fell' : ''}.`;
      }
      const [slip, high] = against(healthy.highRpm);
      return `Slip of ${slip} at ${duty} is more than the ${high} up to which vehicles of this platform are healthy${input.falls ? ', and still fell' : ''}.`;
    }
    case 'too_little_steady':
      switch (tooLittle) {
        case 'low_command':
          return `At ${duty} the clutch is not meant to hold: commands below ${asEntered(lowestDutyPct)} % are not compared.`;
        case 'short':
          return `Held for ${asEntered(input.seconds)} s: too short to tell.`;
        case 'overrun':
          return 'Slip below 0 is overrun: it does not tell whether the clutch holds under load.';
        default:
          return `At ${duty} it cannot be told: what is healthy there is not known yet.`;
      }
  }
}

function roadTestRule(
  { limitRpm, healthy, tooLittle }: RoadTestFigures,
  input: RoadTestInput,
  lowestDutyPct: number,
): string {
  if (tooLittle !== null)
    return `To be judged, speed and command are held for ${HELD_S} s or longer at ${LOCKED_DUTY_PCT} % command or more, or from ${asEntered(lowestDutyPct)} % on where the healthy range of the platform is known, with slip above 0 (own choice).`;
  const range =
    healthy === null
      ? `The healthy range at ${asEntered(input.duty_pct)} % command is not known yet: within the limit at ${LOCKED_DUTY_PCT} % or more holds, more than half of it without being clear (own choice)`
      : `Holds up to ${highWords(input.slip_rpm, Math.min(healthy.highRpm, limitRpm))}, the healthy range of the platform at ${asEntered(input.duty_pct)} % command`;
  return `Slips where slip at ${LOCKED_DUTY_PCT} % command or more is over the platform's limit of ${say(limitRpm)} for ${HELD_S} s or longer and does not fall (at about 78 % some 540 rpm that do not fall are clear slipping: common practice, no source). ${range}.`;
}

const highWords = (slipRpm: number, highRpm: number) => rpmApart(slipRpm, highRpm)?.[1] ?? say(highRpm);

const say = (rpm: number) => `${Math.round(rpm)} rpm`;
