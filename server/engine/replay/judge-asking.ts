import { OFF_DAYS } from './find-askings.ts';
import type { Asking, JudgedAsking, LifeCourse } from './replay-model.ts';

const DAY_MS = 86_400_000;
/** A clutch whose slip has come so far from healthy to the limit was slipping. Own choice. */
const SLIPPING_SHARE = 0.25;

/**
 * What came of an asking, told with all that is known by now.
 *
 * found: the life's event came while it stood or within 14 days after its last day, or within the horizon from where it
 * began, or, where it still stood when the days ended, within the horizon from there; late: the event had come before it
 * began; needless: none of these, and a shop found no fault since it began, or the vehicle has driven the horizon since and
 * nothing ever came; early: driven so far, and the event came later, or slip has risen by a quarter of the way from healthy
 * to the limit; undecided: not driven so far yet.
 *
 * @param asking    the asking
 * @param course    of the life that it was in
 * @param dayEndMs  end of each day, ms
 * @param horizonKm kilometres within which something must come of it
 * @returns the asking with its verdict
 * Source: own rule. Edges: an event settles it whatever a shop found before. A life that ended early without an event
 * leaves it undecided. Errors: none.
 * @example judgeAsking(asking, { life: 1, event: null, lastKm: 90_000, risenShare: 0, clearedMs: [] }, ends, 5_000).verdict // 'needless'
 */
export function judgeAsking(
  asking: Asking,
  { event, lastKm, risenShare, clearedMs }: LifeCourse,
  dayEndMs: readonly number[],
  horizonKm: number,
): JudgedAsking {
  const beganMs = dayEndMs[asking.fromDay] ?? 0;
  const endedMs = (dayEndMs[asking.lastDay] ?? 0) + OFF_DAYS * DAY_MS;
  const drivenKm = Math.max(0, lastKm - asking.fromKm);
  const judged = { ...asking, drivenKm, isCleared: false };
  if (event !== null && event.atMs < beganMs) return { ...judged, verdict: 'late' };
  if (event !== null) {
    const fromKm = asking.isOpen ? asking.lastKm : asking.fromKm;
    if (event.atMs <= endedMs || event.km - fromKm <= horizonKm) return { ...judged, verdict: 'found' };
  }
  if (clearedMs.some((ms) => ms >= beganMs && ms <= endedMs))
    return { ...judged, verdict: 'needless', isCleared: true };
  if (drivenKm < horizonKm) return { ...judged, verdict: 'undecided' };
  const wasSlipping = event !== null || (risenShare ?? 0) >= SLIPPING_SHARE;
  return { ...judged, verdict: wasSlipping ? 'early' : 'needless' };
}
