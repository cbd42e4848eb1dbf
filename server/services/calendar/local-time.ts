import { Temporal } from 'temporal-polyfill';

/** The moment of a local time; one that a change to summer time leaves out is that much later. */
export function momentOf(timeZone: string, day: string, clock: string): Date {
  const next = clock === '24:00';
  const local = Temporal.PlainDate.from(day)
    .add({ days: next ? 1 : 0 })
    .toZonedDateTime({ timeZone, plainTime: next ? '00:00' : clock });
  return new Date(local.epochMilliseconds);
}

/** Day and time of day at a place. */
export function localOf(timeZone: string, moment: Date): { day: string; clock: string } {
  const local = Temporal.Instant.fromEpochMilliseconds(moment.getTime()).toZonedDateTimeISO(timeZone);
  return {
    day: local.toPlainDate().toString(),
    clock: local.toPlainTime().toString({ smallestUnit: 'minute' }),
  };
}

/** Minutes from midnight. */
export function minutesOf(clock: string): number {
  const [hour = 0, minute = 0] = clock.split(':').map(Number);
  return hour * 60 + minute;
}

/** Time of day of minutes from midnight. */
export const clockOf = (minutes: number): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;

/** Hours between two times of one day. */
export const hoursBetween = ({ from, to }: { from: string; to: string }): number =>
  (minutesOf(to) - minutesOf(from)) / 60;
