import { healthyAt } from '#server/engine/road-trace/healthy-at.ts';
import type { Asked, Judged, LookAt, RoadTestResult, Verdict } from './diagnosis-model.ts';
import type { HealthySlip } from './healthy-by-duty.ts';

/** What somebody read off an instrument. */
export interface TypedRoadTest {
  dutyPct: number;
  slipRpm: number;
  /** how long command and speed were held */
  seconds: number;
  /** slip fell while the command was held */
  falls: boolean;
  asMeasured: boolean;
}

export interface RoadTestRules {
  /** reference slip at which the clutch counts as failed, rpm */
  limitRpm: number;
  /** the lowest edge of the command bands, % */
  lowestDutyPct: number;
  /** slip of healthy vehicles, by rising duty; empty where nothing was learned */
  healthy: readonly HealthySlip[];
}

export interface RoadTestFigures {
  limitRpm: number;
  /** at that duty; null where it is not known */
  healthy: HealthySlip | null;
  /** why it was too little; null where it was enough */
  tooLittle: 'low_command' | 'unknown_below_70' | 'short' | 'overrun' | null;
}

/** From this command on a clutch is meant to hold. */
export const LOCKED_DUTY_PCT = 70;
export const HELD_S = 5;

/**
 * Judgement of a road test whose figures were read off an instrument.
 *
 * slips: duty >= 70 %, slip > limit, held 5 s or more, and slip does not fall. holds: slip within the healthy range at
 * that duty; where that is not known, within the limit at >= 70 %. slip_raised: what is between, or over the limit while
 * it falls. too_little_steady: a command below the lowest band edge, or below 70 % where no healthy range is known, held
 * less than 5 s, or overrun.
 *
 * @param test  duty, %; slip, rpm; seconds held, s; whether slip fell
 * @param rules limit, lowest band edge, healthy range
 * @returns the judgement with its figures; or a question about slip below 0 unless the figures stand
 * Source: common practice, no source (at about 78 % command some 540 rpm that do not fall are clear slipping); 70 % and
 * 5 s are own choice. Edges: a healthy range that reaches beyond the limit ends there; where none is known, more than
 * half the limit holds without being clear. Errors: none.
 * @example judgeTypedRoadTest({ dutyPct: 78, slipRpm: 540, seconds: 10, falls: false, asMeasured: false }, { limitRpm: 150, lowestDutyPct: 40, healthy: [] }).result // 'slips'
 */
export function judgeTypedRoadTest(
  test: TypedRoadTest,
  rules: RoadTestRules,
): Asked | Judged<RoadTestResult, RoadTestFigures> {
  if (test.slipRpm < 0 && !test.asMeasured)
    return {
      asks: [{ kind: 'negative_slip', field: 'slipRpm', suggestion: { slipRpm: Math.abs(test.slipRpm) } }],
    };
  const healthy = healthyAt(test.dutyPct, rules.healthy);
  const tooLittle = whyTooLittle(test, rules.lowestDutyPct, healthy);
  const answer = (result: RoadTestResult, verdict: Verdict, lookNext: LookAt[]) => ({
    result,
    verdict,
    lookNext,
    figures: { limitRpm: rules.limitRpm, healthy, tooLittle },
  });
  if (tooLittle !== null)
    return answer('too_little_steady', 'unclear', [
      tooLittle === 'short' ? 'hold_longer' : tooLittle === 'overrun' ? 'drive_again' : 'higher_command',
    ]);
  const isOver = test.slipRpm > rules.limitRpm;
  if (isOver && !test.falls && test.dutyPct >= LOCKED_DUTY_PCT)
    return answer('slips', 'failed', ['electrical_next']);
  if (healthy === null) {
    if (isOver) return answer('slip_raised', 'unclear', ['hold_longer', 'electrical_next']);
    const isClear = test.slipRpm <= rules.limitRpm / 2;
    return answer('holds', isClear ? 'passed' : 'unclear', isClear ? [] : ['drive_again']);
  }
  if (test.slipRpm <= Math.min(healthy.highRpm, rules.limitRpm)) return answer('holds', 'passed', []);
  return test.falls
    ? answer('slip_raised', 'unclear', ['hold_longer', 'electrical_next'])
    : answer('slip_raised', 'failed', ['electrical_next', 'drive_again']);
}

function whyTooLittle(
  test: TypedRoadTest,
  lowestDutyPct: number,
  healthy: HealthySlip | null,
): RoadTestFigures['tooLittle'] {
  if (test.dutyPct < lowestDutyPct) return 'low_command';
  if (test.dutyPct < LOCKED_DUTY_PCT && healthy === null) return 'unknown_below_70';
  if (test.slipRpm < 0) return 'overrun';
  return test.seconds < HELD_S ? 'short' : null;
}
