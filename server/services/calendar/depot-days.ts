import { Temporal } from 'temporal-polyfill';
import type { Hours, SpecialDay, Week } from '#server/contract/calendar.ts';
import { weekdays } from '#server/contract/words.ts';

/** Further ahead nobody knows the holidays, so nothing can be booked. */
export const LAST_DAY_AHEAD = 366;

/** What of a depot says when its bays can be used. */
export interface DepotCalendar {
  bays: number;
  timeZone: string;
  week: Week;
  specialDays: readonly SpecialDay[];
}

/** One day of a depot: without bays and hours where nobody works. */
export interface DayOfDepot {
  day: string;
  bays: number;
  hours: Hours | null;
  /** of a special day */
  note: string;
}

/** A day as the calendar has it: its special day where there is one, else its weekday. */
export function dayOfDepot({ bays, week, specialDays }: DepotCalendar, day: string): DayOfDepot {
  const special = specialDays.find((one) => one.day === day);
  const weekday = weekdays[Temporal.PlainDate.from(day).dayOfWeek - 1] ?? 'monday';
  const hours = special?.hours ?? week[weekday];
  const count = special?.bays ?? bays;
  const closed = hours === null || count === 0;
  return { day, bays: closed ? 0 : count, hours: closed ? null : hours, note: special?.note ?? '' };
}

/** Days from the first to the last, both included. */
export function listDays(from: string, to: string): string[] {
  const days: string[] = [];
  const last = Temporal.PlainDate.from(to);
  for (
    let day = Temporal.PlainDate.from(from);
    Temporal.PlainDate.compare(day, last) <= 0;
    day = day.add({ days: 1 })
  )
    days.push(day.toString());
  return days;
}

export const addDays = (day: string, days: number): string =>
  Temporal.PlainDate.from(day).add({ days }).toString();

/** Monday of the week of a day. */
export function mondayOf(day: string): string {
  const date = Temporal.PlainDate.from(day);
  return date.subtract({ days: date.dayOfWeek - 1 }).toString();
}
