import type { Unavailability } from '#server/contract/calendar.ts';
import {
  addDays,
  type DayOfDepot,
  type DepotCalendar,
  dayOfDepot,
  LAST_DAY_AHEAD,
} from '#server/services/calendar/depot-days.ts';
import { hoursBetween, localOf } from '#server/services/calendar/local-time.ts';
import { sayDay, sayHours, sayWeekday } from './booking-words.ts';
import { type Objection, wrong } from './objection.ts';

/** A depot with what its bays can be used for. */
export interface PlannedDepot extends DepotCalendar {
  id: string;
  name: string;
}

/** Why nothing can be booked at a depot on a day; null where it can. */
export function objectToDay(depot: PlannedDepot, day: string, now: Date): Objection | null {
  const today = localOf(depot.timeZone, now).day;
  if (day < today)
    return wrong('day', `${sayDay(day, today)} is past: at ${depot.name} it is ${sayDay(today, day)}.`);
  const last = addDays(today, LAST_DAY_AHEAD);
  if (day > last)
    return wrong(
      'day',
      `${sayDay(day, today)} is more than ${LAST_DAY_AHEAD} days ahead; the last day that can be booked is ${sayDay(last, today)}.`,
    );
  return objectToClosedDay(depot, day, today);
}

/** Why nobody works in the bays of a depot on a day; null where somebody does. */
export function objectToClosedDay(depot: PlannedDepot, day: string, today: string): Objection | null {
  const { hours, bays } = dayOfDepot(depot, day);
  if (hours !== null && bays > 0) return null;
  const named = sayDay(day, today);
  const special = depot.specialDays.find((one) => one.day === day);
  if (special?.bays === 0)
    return wrong(
      'day',
      `${depot.name} is closed on ${named}${special.note === '' ? ', a special day of its calendar' : `: ${special.note}`}.`,
    );
  if ((special?.bays ?? depot.bays) === 0)
    return wrong('depot', `${depot.name} has no bays, so nothing can be booked there.`);
  return wrong('day', `${named} is a ${sayWeekday(day)}, on which ${depot.name} does not work.`);
}

/** Why an inspection cannot be as long as it is on a day when the depot works; null where it can. */
export function objectToLength(
  { name }: PlannedDepot,
  { day, hours: open }: DayOfDepot,
  hours: number,
  today: string,
): Objection | null {
  if (open === null || hours <= hoursBetween(open)) return null;
  return wrong(
    'hours',
    `${sayHours(hours)} are longer than the day: ${name} works from ${open.from} to ${open.to} on ${sayDay(day, today)}.`,
  );
}

/** Why a bay is not there on a day. */
export function objectToBay(
  { name }: PlannedDepot,
  { day, bays }: DayOfDepot,
  bay: number,
  today: string,
): Objection | null {
  if (bay <= bays) return null;
  return wrong(
    'bay',
    `${name} has ${bays === 1 ? 'one bay' : `${bays} bays`} on ${sayDay(day, today)}, so there is no bay ${bay}.`,
  );
}

/** Why a vehicle cannot be taken on a day. */
export function objectToAbsence(
  unit: string,
  unavailable: readonly Unavailability[],
  day: string,
  today: string,
): Objection | null {
  const away = unavailable.find(({ from, to }) => from <= day && day <= to);
  if (away === undefined) return null;
  const until = away.from === away.to ? 'that day' : `until ${sayDay(away.to, today)}`;
  return wrong(
    'day',
    `${unit} cannot be taken on ${sayDay(day, today)}: it is entered as unavailable ${until}${away.note === '' ? '' : ` (${away.note})`}.`,
  );
}
