import type { TestStep } from '#server/contract/words.ts';
import { expectedCurrent } from '#server/engine/diagnosis/expected-current.ts';
import { WANTED_FLOW_L_MIN } from '#server/engine/diagnosis/judge-cooler.ts';
import { LOCKED_DUTY_PCT } from '#server/engine/diagnosis/judge-typed-road-test.ts';
import { healthyAt } from '#server/engine/road-trace/healthy-at.ts';
import type { JudgedPlatform } from './judged-by.ts';
import { ampsApart, asEntered } from './step-figures.ts';
import { toSolenoid } from './to-solenoid.ts';

/** A command at which road tests are driven. */
const USUAL_DUTY_PCT = 85;

/** The figure to expect in a step on this platform, with its arithmetic; null where there is none. */
export function expectedWords(step: TestStep, platform: JudgedPlatform): string | null {
  switch (step) {
    case 'road_test':
      return roadTestWords(platform);
    case 'solenoid_current':
      return platform.solenoid === null
        ? 'This platform lacks the figures of its solenoid: about 1 A is usual for a coil of low resistance (common practice, no source).'
        : `Expected change: ${currentArithmetic(platform.solenoid)}.`;
    case 'cooler':
      return `At least ${WANTED_FLOW_L_MIN} L/min at idle: about 1 L in 21 s (common practice, no source).`;
    default:
      return null;
  }
}

/** '24 V / (5.5 + 0.5) ohm = 4.0 A, 3.0 to 5.0 A with 25 %'; a measured supply stands for the platform's. */
export function currentArithmetic(
  solenoid: NonNullable<JudgedPlatform['solenoid']>,
  measuredV?: number,
): string {
  const figures = toSolenoid(solenoid, measuredV);
  const { expectedA, lowA, highA } = expectedCurrent(figures);
  const [expected, low, high] = ampsApart([expectedA, lowA, highA]);
  return `${asEntered(figures.supplyV)} V / (${asEntered(figures.ohm)} + ${asEntered(figures.wiringOhm)}) ohm = ${expected} A, ${low} to ${high} A with ${asEntered(figures.tolerancePct)} %`;
}

function roadTestWords({ healthy, limitRpm }: JudgedPlatform): string {
  const limit = `the limit is ${Math.round(limitRpm)} rpm`;
  const range = healthyAt(USUAL_DUTY_PCT, healthy);
  return range === null
    ? `At ${LOCKED_DUTY_PCT} % command or more ${limit}; what is healthy on this platform is not known yet.`
    : `At ${USUAL_DUTY_PCT} % command ${Math.round(range.lowRpm)} to ${Math.round(range.highRpm)} rpm are usual on healthy vehicles of this platform; ${limit}.`;
}
