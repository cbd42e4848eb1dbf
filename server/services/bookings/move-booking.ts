import type { BookingRow } from '#db/queries/list-bookings.ts';
import { lockBayDay } from '#db/queries/lock-bay-day.ts';
import { type HeldVehicle, holdVehicle } from '#db/queries/lock-booking.ts';
import type { Booking, BookingMove } from '#server/contract/bookings.ts';
import { localOf } from '#server/services/calendar/local-time.ts';
import type { Context } from '#server/services/context.ts';
import { hoursFor } from './book-vehicle.ts';
import { CHANGE_IN_DOUBT, lockOpenBooking, type Row, storeChange } from './change-booking.ts';
import { findPlace, objectToWish, type Wish } from './find-place.ts';
import { objectToVehicleDay } from './object-to-vehicle-day.ts';
import { refuse, wrong } from './objection.ts';
import { ownDepotOf } from './own-depot-of.ts';
import { findOwnBooking, readBooking } from './read-booking.ts';
import { runAgain } from './run-again.ts';
import { storeOrDoubt } from './store-or-doubt.ts';
import { hoursOf } from './to-booking.ts';

/** Gives a booking another place, length or note. What is left out stays as far as it can. */
export function moveBooking(ctx: Context, id: number, request: BookingMove): Promise<Booking> {
  return runAgain(() =>
    storeOrDoubt(ctx, CHANGE_IN_DOUBT, async (inside) => {
      const now = ctx.now();
      const seen = await findOwnBooking(inside, id);
      const held = await holdVehicle(inside.db, {
        unit: seen.unit,
        sight: { depots: null, atShopOnly: false },
        depot: request.depot ?? seen.booking.depot,
      });
      if (held === null) throw new Error('a booked vehicle must be there');
      const depot = ownDepotOf(ctx, held, request.depot);
      const day = request.day ?? seen.booking.day;
      if (day !== null) await lockBayDay(inside.db, { depot: depot.id, day }, 'alone');
      const row = await lockOpenBooking(inside, seen, request.version, now);
      const note = request.note === undefined ? row.note : request.note || null;
      if (day === null || !asksForPlace(request, row, seen)) {
        const words = { note, reason: request.reason ?? row.reason };
        const set = day === null ? { ...words, ...keepWaiting(request, row, seen, depot.id) } : words;
        if (isSame(row, set) && request.reason === undefined) return readBooking(inside, id, now);
        return storeChange(inside, 'booking_moved', seen, row, set, now, depot.timeZone);
      }
      const wish = toWish({ ...request, day }, row, seen, held, depot.id, now);
      const objection = objectToWish(depot, wish, now) ?? objectToVehicleDay(held, depot, wish.day, now);
      if (objection !== null) throw refuse(objection);
      const place = await findPlace(inside.db, depot, wish, now, row.id);
      const set = {
        state: 'booked' as const,
        depot: depot.id,
        ...place,
        note,
        reason: request.reason ?? null,
      };
      return storeChange(inside, 'booking_moved', seen, row, set, now, depot.timeZone);
    }),
  );
}

/** What a booking without a day can have: a place is one of a day. */
function keepWaiting(
  { bay, from, hours }: BookingMove,
  row: Row,
  seen: BookingRow,
  depot: string,
): Pick<Row, 'depot' | 'hours'> {
  if (bay !== undefined || from !== undefined)
    throw refuse(wrong('day', `The booking of ${seen.unit} is put off and has no day: name one.`));
  return { depot, hours: hours ?? row.hours };
}

const isSame = (row: Row, set: Partial<Row>): boolean =>
  (Object.keys(set) as (keyof Row)[]).every((field) => row[field] === set[field]);

/** A note can be changed of a booking whose day is past, or no longer a working day. */
function asksForPlace({ depot, day, bay, from, hours }: BookingMove, row: Row, seen: BookingRow): boolean {
  return (
    (depot !== undefined && depot !== row.depot) ||
    (day !== undefined && day !== row.day) ||
    (bay !== undefined && bay !== row.bay) ||
    (from !== undefined && from !== keptClock(row, seen)) ||
    (hours !== undefined && hours !== hoursOf(row))
  );
}

function toWish(
  { day, bay, from, hours: asked }: BookingMove & { day: string },
  row: Row,
  seen: BookingRow,
  held: HeldVehicle,
  depot: string,
  now: Date,
): Wish {
  const hours = asked ?? hoursOf(row) ?? hoursFor(held);
  const clock = keptClock(row, seen);
  if (row.bay === null || row.startsAt === null || clock === null) return { day, hours, bay, from };
  const stays =
    depot === row.depot && day === row.day && (bay ?? row.bay) === row.bay && (from ?? clock) === clock;
  // What has begun cannot begin again: it is made longer or shorter where it is, or is refused.
  if (stays && row.startsAt < now) return { day, hours, bay: row.bay, from: clock, begunAt: row.startsAt };
  return { day, hours, bay, from, kept: { bay: row.bay, from: clock } };
}

const keptClock = ({ startsAt }: Row, { timeZone }: BookingRow): string | null =>
  startsAt === null ? null : localOf(timeZone, startsAt).clock;
