import type { HealthySlip } from '#server/engine/diagnosis/healthy-by-duty.ts';
import { fallsAway } from './falls-away.ts';
import { healthyAt } from './healthy-at.ts';
import type { SteadyStretch } from './trace-model.ts';

export interface JudgedTrace {
  result: 'slips' | 'slip_raised' | 'holds' | 'too_little_steady';
  /** the stretch that decides; null where none does */
  stretch: SteadyStretch | null;
  /** healthy range at its duty; null where it is not known */
  healthy: HealthySlip | null;
  /** steady seconds at 70 % command or more */
  lockedS: number;
  /** of these, within the healthy range, or under the limit where it is not known */
  withinS: number;
}

/** From this command on a clutch is meant to hold. */
const LOCKED_DUTY_PCT = 70;
/** So long it must be seen to hold. */
const HOLDS_S = 20;

/**
 * What the steady stretches of a road test say of the clutch.
 *
 * slips: a stretch at >= 70 % command whose median slip is above the limit and does not fall away ({@link fallsAway}).
 * slip_raised: else, a stretch whose median slip is above the healthy range at its command, or above the limit at
 * >= 70 % command while it falls away. holds: else, where stretches at >= 70 % command within the healthy range come to 20
 * s or more; where the range is not known, within the limit. Else too_little_steady.
 *
 * @param stretches steady stretches, duty in %, slip in rpm
 * @param limitRpm  reference slip at which the clutch counts as failed, rpm
 * @param healthy   healthy range of slip by rising duty, rpm; empty where nothing was learned
 * @returns the result, and what it rests on: of several stretches that would decide, that with the most slip
 * Source: common practice, no source (at about 78 % command some 540 rpm that do not fall are clear slipping); 70 %, 20
 * s are own choice. Edges: a healthy range that reaches beyond the limit ends there; no stretches are too little.
 * Errors: none.
 * @example judgeSteady([], 150, []).result // 'too_little_steady'
 */
export function judgeSteady(
  stretches: readonly SteadyStretch[],
  limitRpm: number,
  healthy: readonly HealthySlip[],
): JudgedTrace {
  const seen = stretches.map((stretch) => {
    const range = healthyAt(stretch.dutyPct, healthy);
    const isLocked = stretch.dutyPct >= LOCKED_DUTY_PCT;
    const isOver = isLocked && stretch.slipRpm > limitRpm;
    const isRaised = range !== null && stretch.slipRpm > Math.min(range.highRpm, limitRpm);
    return { stretch, range, isLocked, isOver, isRaised, seconds: (stretch.toMs - stretch.fromMs) / 1000 };
  });
  type Seen = (typeof seen)[number];
  const sum = (some: Seen[]) => some.reduce((total, { seconds }) => total + seconds, 0);
  const most = (some: Seen[], figure: (one: Seen) => number) =>
    some.reduce<Seen | null>((best, one) => (best === null || figure(one) > figure(best) ? one : best), null);
  const bySlip = ({ stretch }: Seen) => stretch.slipRpm;

  const locked = seen.filter(({ isLocked }) => isLocked);
  const within = locked.filter(({ isOver, isRaised }) => !isOver && !isRaised);
  const [lockedS, withinS] = [sum(locked), sum(within)];
  const answer = (result: JudgedTrace['result'], by: Seen | null): JudgedTrace => ({
    result,
    stretch: by?.stretch ?? null,
    healthy: by?.range ?? null,
    lockedS,
    withinS,
  });

  const slipping = most(
    seen.filter(({ stretch, isOver }) => isOver && !fallsAway(stretch)),
    bySlip,
  );
  if (slipping !== null) return answer('slips', slipping);
  const raised = most(
    seen.filter(({ isRaised, isOver }) => isRaised || isOver),
    bySlip,
  );
  if (raised !== null) return answer('slip_raised', raised);
  if (withinS >= HOLDS_S)
    return answer(
      'holds',
      most(within, ({ seconds }) => seconds),
    );
  return answer('too_little_steady', null);
}
