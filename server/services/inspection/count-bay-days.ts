import { type DepotCalendar, dayOfDepot } from '#server/services/calendar/depot-days.ts';
import { hoursBetween } from '#server/services/calendar/local-time.ts';

/** Bay days of one depot that are worked on these days from now on and not booked, parts of days included. */
export function countBayDays(
  calendar: DepotCalendar,
  /** hours by day that are booked and still ahead */
  bookedHours: ReadonlyMap<string, number>,
  days: readonly string[],
  /** now, where the depot is */
  now: { day: string; clock: string },
): number {
  return days.reduce((sum, day) => {
    if (day < now.day) return sum;
    const { bays, hours } = dayOfDepot(calendar, day);
    if (hours === null) return sum;
    const whole = hoursBetween(hours);
    const begun = day === now.day && now.clock > hours.from;
    const left = begun ? Math.max(0, hoursBetween({ from: now.clock, to: hours.to })) : whole;
    return sum + Math.max(0, bays * left - (bookedHours.get(day) ?? 0)) / whole;
  }, 0);
}
