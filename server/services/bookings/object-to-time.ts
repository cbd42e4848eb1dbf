import type { DayOfDepot } from '#server/services/calendar/depot-days.ts';
import { localOf, minutesOf, momentOf } from '#server/services/calendar/local-time.ts';
import { sayDay } from './booking-words.ts';
import type { PlannedDepot } from './object-to-day.ts';
import { type Objection, wrong } from './objection.ts';

export interface Span {
  startsAt: Date;
  endsAt: Date;
}

/** The moments between which a depot works on a day; null where it does not. */
export function openSpan({ timeZone }: PlannedDepot, { day, hours }: DayOfDepot): Span | null {
  if (hours === null) return null;
  return { startsAt: momentOf(timeZone, day, hours.from), endsAt: momentOf(timeZone, day, hours.to) };
}

/** Why a time of day cannot be asked for; null where it can. */
export function objectToTime(
  depot: PlannedDepot,
  ofDay: DayOfDepot,
  from: string,
  ms: number,
  now: Date,
): Objection | null {
  const { name, timeZone } = depot;
  const { day } = ofDay;
  const here = localOf(timeZone, now);
  if (minutesOf(from) % 15 !== 0)
    return wrong('from', `${from} is not on a quarter of an hour, which is :00, :15, :30 or :45.`);
  const startsAt = momentOf(timeZone, day, from);
  const real = localOf(timeZone, startsAt).clock;
  if (real !== from && from !== '24:00')
    return wrong(
      'from',
      `There is no ${from} at ${name} on ${sayDay(day, here.day)}: the clocks go forward past it.`,
    );
  if (startsAt < now)
    return wrong(
      'from',
      `${from} has passed already: at ${name} it is ${here.clock} on ${sayDay(here.day, day)}.`,
    );
  return objectToHours(depot, ofDay, { startsAt, endsAt: new Date(startsAt.getTime() + ms) }, here.day);
}

/** Why a span of time is not within the working hours of its day; null where it is. */
export function objectToHours(
  depot: PlannedDepot,
  ofDay: DayOfDepot,
  { startsAt, endsAt }: Span,
  today: string,
): Objection | null {
  const open = openSpan(depot, ofDay);
  if (open === null || (startsAt >= open.startsAt && endsAt <= open.endsAt)) return null;
  const [from, to] = [startsAt, endsAt].map((at) => localOf(depot.timeZone, at).clock);
  return wrong(
    'from',
    `${from} to ${to} is outside the hours of ${depot.name}, which works from ${ofDay.hours?.from} to ${ofDay.hours?.to} on ${sayDay(ofDay.day, today)}.`,
  );
}
