import { mondayOf } from '#server/services/calendar/depot-days.ts';

const MONDAY = 1;
const TUESDAY = 2;
const FROM_HOUR = 6;

/** The week whose digest is sent now: on Monday from 06:00 and on Tuesday, UTC. Null at any other time. */
export function sendingWeek(now: Date): string | null {
  const day = now.getUTCDay();
  const isTime = day === TUESDAY || (day === MONDAY && now.getUTCHours() >= FROM_HOUR);
  return isTime ? mondayOf(now.toISOString().slice(0, 10)) : null;
}
