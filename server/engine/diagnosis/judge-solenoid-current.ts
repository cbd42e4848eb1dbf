import { askAboutCurrent } from './ask-about-current.ts';
import type { Asked, CurrentResult, Judged, LookAt, Verdict } from './diagnosis-model.ts';
import { type ExpectedCurrent, expectedCurrent, type SolenoidFigures } from './expected-current.ts';

export interface SolenoidCurrentInput {
  /** at the fuse, commanded off, A */
  offA: number;
  /** at the fuse, commanded on, A */
  onA: number;
  click: 'heard' | 'not_heard' | 'not_listened';
  asMeasured: boolean;
}

export interface CurrentFigures {
  changeA: number;
  lowA: number;
  highA: number;
  /** null where the platform lacks its solenoid's figures */
  expected: ExpectedCurrent | null;
}

/** About 1 A is usual for a coil of low resistance; common practice, no source. The width is our own choice. */
const USUAL = { expectedA: 1, lowA: 0.5, highA: 3 };
/** Less than this share of the expected change is none; our own choice. */
const NONE_SHARE = 0.1;
/** From this share on, a current that is there all the time could be the solenoid's; our own choice. */
const SOLENOIDS_SHARE = 0.5;
/** Sums of decimal figures are not exact. */
const EXACT_A = 1e-9;

/**
 * Judgement of the solenoid's current.
 *
 * change = on - off, right where low <= change <= high with low, high = V / (coil + wiring) -+ tolerance: that covers
 * coil, wiring, driver and command at once. Else: no change (under 10 % of the expected) is `no_current`, or
 * `current_stays` where off is at least half of the expected; below low is `current_low`, above high `current_high`.
 * Where the platform lacks its figures, 0.5 to 3 A stand for them, and low or high are unclear instead of failed.
 *
 * @param input    currents at the fuse, A; whether a click was heard; whether the figures stand as they are
 * @param solenoid figures of the platform; null where it has none
 * @returns the judgement with its figures; or questions ({@link askAboutCurrent}) unless the figures stand
 * Source: Ohm's law; about 1 A for a coil of low resistance is common practice, no source; shares are own choice.
 * Edges: a change exactly at low or high is right; on below off changes nothing that counts. Errors: those of
 * expectedCurrent.
 * @example judgeSolenoidCurrent({ offA: 0, onA: 1, click: 'heard', asMeasured: false }, null).result // 'current_right'
 */
export function judgeSolenoidCurrent(
  input: SolenoidCurrentInput,
  solenoid: SolenoidFigures | null,
): Asked | Judged<CurrentResult, CurrentFigures> {
  const expected = solenoid === null ? null : expectedCurrent(solenoid);
  const { expectedA, lowA, highA } = expected ?? USUAL;
  if (!input.asMeasured) {
    const asks = askAboutCurrent(input, { expectedA, lowA, highA });
    if (asks.length > 0) return { asks };
  }
  const changeA = input.onA - input.offA;
  const figures = { changeA, lowA, highA, expected };
  const answer = (result: CurrentResult, verdict: Verdict, lookNext: LookAt[]) => ({
    result,
    verdict,
    lookNext,
    figures,
  });
  if (changeA >= lowA - EXACT_A && changeA <= highA + EXACT_A)
    return answer('current_right', 'passed', input.click === 'not_heard' ? ['no_click'] : []);
  if (changeA < NONE_SHARE * expectedA) {
    const heard: LookAt[] = input.click === 'heard' ? ['right_fuse'] : [];
    return input.offA >= SOLENOIDS_SHARE * expectedA - EXACT_A
      ? answer('current_stays', 'failed', [...heard, 'shorted_driver', 'foreign_feed', 'other_consumers'])
      : answer('no_current', 'failed', [...heard, 'command', 'fuse', 'driver', 'open_wire', 'open_coil']);
  }
  const verdict = expected === null ? 'unclear' : 'failed';
  const unknown: LookAt[] = expected === null ? ['platform_figures'] : [];
  if (changeA > highA) return answer('current_high', verdict, [...unknown, 'shorted_coil', 'shorted_wiring']);
  const others: LookAt[] = ['connectors', 'wiring'];
  if (expected === null) return answer('current_low', verdict, [...unknown, ...others]);
  const heat = changeA >= expected.hotA * (lowA / expectedA) - EXACT_A;
  return answer('current_low', verdict, heat ? ['coil_heat', ...others] : [...others, 'coil_heat']);
}
