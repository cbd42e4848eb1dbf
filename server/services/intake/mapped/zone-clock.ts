import { Temporal } from 'temporal-polyfill';

const DAY_MS = 86_400_000;
const MINUTE_MS = 60_000;
const KEPT = 20_000;
const YEARS = { from: Date.UTC(1900, 0, 1), to: Date.UTC(2200, 0, 1) };

/** Whether it names a time zone: IANA, or an offset such as +02:00. */
export function isZone(zone: string): boolean {
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(zone);
    return true;
  } catch {
    return false;
  }
}

/**
 * The moment of a local time, given as ms as if it were UTC; null where the change of the clocks leaves that time out, or it
 * is centuries away. Of a time that comes twice the earlier is taken. Offsets are kept by day, and by minute on the days on
 * which they change: a library call takes a hundred times as long as all else that is done with a row.
 */
export function createZoneClock(zone: string): (localMs: number) => number | null {
  const byDay = new Map<number, number | 'changes'>();
  const byMinute = new Map<number, number | null>();
  const offsetOfDay = (day: number): number | 'changes' => {
    const known = byDay.get(day);
    if (known !== undefined) return known;
    const first = findOffset(zone, day * DAY_MS);
    const last = findOffset(zone, (day + 1) * DAY_MS);
    const offset = first === null || first !== last ? 'changes' : first;
    if (byDay.size >= KEPT) byDay.clear();
    byDay.set(day, offset);
    return offset;
  };
  const offsetOfMinute = (minute: number): number | null => {
    const known = byMinute.get(minute);
    if (known !== undefined) return known;
    const offset = findOffset(zone, minute * MINUTE_MS);
    if (byMinute.size >= KEPT) byMinute.clear();
    byMinute.set(minute, offset);
    return offset;
  };
  return (localMs) => {
    if (localMs < YEARS.from || localMs > YEARS.to) return null;
    const ofDay = offsetOfDay(Math.floor(localMs / DAY_MS));
    const offset = ofDay === 'changes' ? offsetOfMinute(Math.floor(localMs / MINUTE_MS)) : ofDay;
    return offset === null ? null : localMs - offset;
  };
}

function findOffset(timeZone: string, localMs: number): number | null {
  const local = Temporal.Instant.fromEpochMilliseconds(localMs).toZonedDateTimeISO('UTC').toPlainDateTime();
  const zoned = local.toZonedDateTime(timeZone, { disambiguation: 'earlier' });
  return zoned.toPlainDateTime().equals(local) ? localMs - zoned.epochMilliseconds : null;
}
