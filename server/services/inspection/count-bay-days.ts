import { type DepotCalendar, dayOfDepot, listDays } from '#server/services/calendar/depot-days.ts';
import { hoursBetween, localOf } from '#server/services/calendar/local-time.ts';

export interface BookedHours {
  day: string;
  /** still ahead */
  hours: number;
}

/** Bay days of one depot that are worked from the first to the last day and not booked, parts of days included. */
export function countBayDays(
  calendar: DepotCalendar,
  booked: readonly BookedHours[],
  from: string,
  to: string,
  now: Date,
): number {
  const hoursOn = new Map<string, number>();
  for (const { day, hours } of booked) hoursOn.set(day, (hoursOn.get(day) ?? 0) + hours);
  const { day: today, clock } = localOf(calendar.timeZone, now);
  return listDays(from, to).reduce((sum, day) => {
    const { bays, hours } = dayOfDepot(calendar, day);
    if (hours === null || day < today) return sum;
    const whole = hoursBetween(hours);
    const begun = day === today && clock > hours.from;
    const left = begun ? Math.max(0, hoursBetween({ from: clock, to: hours.to })) : whole;
    return sum + Math.max(0, bays * left - (hoursOn.get(day) ?? 0)) / whole;
  }, 0);
}
