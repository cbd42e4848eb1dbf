import type { Database } from '#db/client.ts';
import { findTakenBays, type TakenBay } from '#db/queries/list-bookings.ts';
import { type DayOfDepot, dayOfDepot } from '#server/services/calendar/depot-days.ts';
import { localOf, momentOf } from '#server/services/calendar/local-time.ts';
import { sayDay, sayHours, sayList } from './booking-words.ts';
import { findGap, type Gap, type Wanted } from './find-gap.ts';
import { objectToBay, objectToDay, objectToLength, type PlannedDepot } from './object-to-day.ts';
import { objectToHours, objectToTime, openSpan } from './object-to-time.ts';
import { collides, type Objection, refuse, wrong } from './objection.ts';

const HOUR_MS = 3_600_000;

export interface Wish {
  day: string;
  hours: number;
  /** asked for: this and no other */
  bay?: number | undefined;
  from?: string | undefined;
  /** where it is now: kept where that is free */
  kept?: { bay: number; from: string } | undefined;
  /** when it began, of a booking that stays where it began: bay and from are those then */
  begunAt?: Date | undefined;
}

export interface Place {
  day: string;
  bay: number;
  startsAt: Date;
  endsAt: Date;
  hours: number;
}

/** What the calendar itself has against a wish; null where only other bookings could be in the way. */
export function objectToWish(depot: PlannedDepot, wish: Wish, now: Date): Objection | null {
  const today = localOf(depot.timeZone, now).day;
  const ofDay = dayOfDepot(depot, wish.day);
  return (
    objectToDay(depot, wish.day, now) ??
    objectToLength(depot, ofDay, wish.hours, today) ??
    (wish.bay === undefined ? null : objectToBay(depot, ofDay, wish.bay, today)) ??
    objectToStart(depot, ofDay, wish, now, today)
  );
}

function objectToStart(
  depot: PlannedDepot,
  ofDay: DayOfDepot,
  { from, hours, begunAt }: Wish,
  now: Date,
  today: string,
): Objection | null {
  const ms = hours * HOUR_MS;
  if (begunAt !== undefined) {
    const span = { startsAt: begunAt, endsAt: new Date(begunAt.getTime() + ms) };
    return objectToHours(depot, ofDay, span, today);
  }
  return from === undefined ? null : objectToTime(depot, ofDay, from, ms, now);
}

/** A free place for a wish that the calendar allows, or the refusal that says what is in the way. */
export async function findPlace(
  db: Database,
  depot: PlannedDepot,
  wish: Wish,
  now: Date,
  except: number | null = null,
): Promise<Place> {
  const ofDay = dayOfDepot(depot, wish.day);
  const open = openSpan(depot, ofDay);
  if (open === null) throw new Error('findPlace requires a day on which the depot works');
  const { startsAt: opensAt, endsAt: closesAt } = open;
  const ms = wish.hours * HOUR_MS;
  const taken = await findTakenBays(db, { depot: depot.id, from: opensAt, to: closesAt, except });
  const wanted: Wanted = { bays: ofDay.bays, opensAt, closesAt, notBefore: wish.begunAt ?? now, ms };
  const gap = listTries(depot, wish).reduce<Gap | null>(
    (found, attempt) => found ?? findGap(taken, { ...wanted, ...attempt }),
    null,
  );
  if (gap === null) throw refuse(saysNoGap(depot, wish, wanted, taken));
  return { day: wish.day, hours: wish.hours, ...gap, endsAt: new Date(gap.startsAt.getTime() + ms) };
}

/** What is asked for stays; of what is kept as much as can be, the time before the bay. */
function listTries(
  { timeZone }: PlannedDepot,
  { day, bay, from, kept, begunAt }: Wish,
): Pick<Wanted, 'bay' | 'startsAt'>[] {
  const at = (clock: string | undefined) =>
    clock === undefined ? undefined : momentOf(timeZone, day, clock);
  const asked = { bay, startsAt: begunAt ?? at(from) };
  if (kept === undefined) return [asked];
  const keptBay = bay ?? kept.bay;
  const keptStart = asked.startsAt ?? at(kept.from);
  return [
    { bay: keptBay, startsAt: keptStart },
    { bay, startsAt: keptStart },
    { bay: keptBay, startsAt: asked.startsAt },
    asked,
  ];
}

function saysNoGap(
  { name, timeZone }: PlannedDepot,
  { day, bay, from, hours, begunAt }: Wish,
  { bays, closesAt, notBefore, ms }: Wanted,
  taken: readonly TakenBay[],
): Objection {
  const here = localOf(timeZone, notBefore);
  const on = sayDay(day, here.day);
  const clock = (at: Date) => localOf(timeZone, at).clock;
  const field =
    begunAt !== undefined ? 'hours' : bay !== undefined ? 'bay' : from !== undefined ? 'from' : 'day';
  if (notBefore.getTime() + ms > closesAt.getTime())
    return wrong(
      field,
      `No ${sayHours(hours)} are left on ${on}: at ${name} it is ${here.clock}, and it closes at ${clock(closesAt)}.`,
    );
  const startMs = from === undefined ? null : (begunAt ?? momentOf(timeZone, day, from)).getTime();
  const there = taken.filter(
    (one) =>
      (bay === undefined || one.bay === bay) &&
      one.endsAt > notBefore &&
      (startMs === null || (one.startsAt.getTime() < startMs + ms && one.endsAt.getTime() > startMs)),
  );
  if (there.length === 0)
    return wrong(
      'hours',
      `${sayHours(hours)} that begin on a quarter of an hour do not fit into the hours of ${name} on ${on}.`,
    );
  const who = sayList(
    there.map(({ unit, startsAt, endsAt, bay: own }) =>
      bay === undefined
        ? `${unit} in bay ${own} ${clock(startsAt)} to ${clock(endsAt)}`
        : `${unit} ${clock(startsAt)} to ${clock(endsAt)}`,
    ),
  );
  const what =
    bay !== undefined
      ? `Bay ${bay} of ${name}`
      : bays === 1
        ? `The only bay of ${name}`
        : `Every one of the ${bays} bays of ${name}`;
  return collides(
    field,
    from === undefined
      ? `${what} is too full on ${on} for ${sayHours(hours)}: ${who}.`
      : `${what} is taken on ${on} at ${from} for part of the ${sayHours(hours)}: ${who}.`,
  );
}
