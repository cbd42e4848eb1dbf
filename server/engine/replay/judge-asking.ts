import { OFF_DAYS } from './find-askings.ts';
import type { AskedOf, Asking, JudgedAsking, LifeCourse } from './replay-model.ts';

const DAY_MS = 86_400_000;
/** A clutch whose slip has come so far from healthy to the limit was slipping. Own choice. */
const SLIPPING_SHARE = 0.25;

/**
 * What came of an asking, told with all that is known by now.
 *
 * found: the life's event came within the horizon from where it began, or while it stood, or within 14 days after its last day
 * and the horizon from there; in each case before a shop had found no fault, and before the next asking took over. late: the
 * event had come before it began. needless: none of these, and a shop found no fault since it began, while it stood, within 14
 * days after or before the horizon was driven; or the vehicle has driven the horizon since and nothing ever came. early: driven
 * so far, and the event came later, or slip has risen by a quarter of the way from healthy to the limit. undecided: not driven
 * so far yet.
 *
 * @param asking    the asking
 * @param course    of the life that it was in
 * @param how       end of each day, ms, and kilometres within which something must come of it
 * @returns the asking with its verdict
 * Source: own rule. Edges: what a shop did not find and came later is not found by this asking, but by the next one if there
 * was one. It makes no difference when the days end: an open one is judged as if it had been let go then. A life that ended
 * early without an event leaves it undecided. Errors: none.
 * @example judgeAsking(asking, { life: 1, event: null, lastKm: 90_000, risenShare: 0, clearedMs: [] }, { dayEndMs: ends, horizonKm: 5_000 }).verdict // 'needless'
 */
export function judgeAsking(
  asking: Asking,
  { event, lastKm, risenShare, clearedMs }: LifeCourse,
  { dayEndMs, horizonKm }: Pick<AskedOf, 'dayEndMs' | 'horizonKm'>,
): JudgedAsking {
  const endOf = (day: number) => dayEndMs[day] ?? 0;
  const beganMs = endOf(asking.fromDay);
  const nextMs = asking.nextDay === null ? Number.POSITIVE_INFINITY : endOf(asking.nextDay);
  const endedMs = Math.min(nextMs, endOf(asking.lastDay) + OFF_DAYS * DAY_MS);
  const drivenKm = Math.max(0, lastKm - asking.fromKm);
  const judged = { ...asking, drivenKm, isCleared: false };
  if (event !== null && event.atMs < beganMs) return { ...judged, verdict: 'late' };

  const clearMs = Math.min(...clearedMs.filter((ms) => ms >= beganMs && ms < nextMs));
  const isNear = event !== null && event.km - asking.fromKm <= horizonKm;
  if (event !== null && event.atMs <= clearMs && event.atMs < nextMs) {
    const stood = event.atMs <= endOf(asking.lastDay);
    const justLetGo = event.atMs <= endedMs && event.km - asking.lastKm <= horizonKm;
    if (isNear || stood || justLetGo) return { ...judged, verdict: 'found' };
  }
  // Mileage of the shop's word is not known: it came within the horizon where the vehicle, or the event, came no further.
  const isWithin = clearMs <= endedMs || drivenKm < horizonKm || isNear;
  if (Number.isFinite(clearMs) && isWithin) return { ...judged, verdict: 'needless', isCleared: true };
  if (drivenKm < horizonKm) return { ...judged, verdict: 'undecided' };
  const wasSlipping = event !== null || (risenShare ?? 0) >= SLIPPING_SHARE;
  return { ...judged, verdict: wasSlipping ? 'early' : 'needless' };
}
