import type { Database } from '#db/client.ts';
import { lockBayDay } from '#db/queries/lock-bay-day.ts';
import { findDepot, findOpenBooking, type HeldVehicle, holdVehicle } from '#db/queries/lock-booking.ts';
import { bookings } from '#db/schema/planning.ts';
import type { Booking, BookingRequest } from '#server/contract/bookings.ts';
import { platformInput } from '#server/contract/fleet.ts';
import { SlipdriftError } from '#server/errors.ts';
import { localOf } from '#server/services/calendar/local-time.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { isWithin } from '#server/services/fleet/other-depots.ts';
import { sightOf } from '#server/services/sight.ts';
import { findPlace, objectToWish, type Place } from './find-place.ts';
import { noteBooking } from './note-booking.ts';
import { objectToAbsence, type PlannedDepot } from './object-to-day.ts';
import { type Objection, refuse, wrong } from './objection.ts';
import { readBooking } from './read-booking.ts';
import { sayOpenBooking } from './say-open-booking.ts';

/** How long an inspection takes where nobody has said what platform the vehicle is. */
const USUAL_HOURS = platformInput.shape.inspection_hours.parse(undefined);
/** More than are ever booked at one depot within a moment. */
const MOST_TURNS = 1000;

/** Books one vehicle, or puts it among those that wait for a day. One short transaction, which decides by itself. */
export async function bookVehicle(ctx: Context, request: BookingRequest): Promise<Booking> {
  const now = ctx.now();
  return ctx.db.transaction(async (transaction) => {
    const inside = { ...ctx, db: transaction };
    const vehicle = await holdVehicle(transaction, request.vehicle, sightOf(ctx.actor));
    if (vehicle === null) throw refuse(wrong('vehicle', `No vehicle '${request.vehicle}' is known.`));
    if (vehicle.retired) throw refuse(wrong('vehicle', `Vehicle ${vehicle.unit} is retired.`));
    const depot = await findOwnDepot(inside, request.depot ?? vehicle.depot, vehicle.unit);
    await refuseSecond(transaction, vehicle, now);
    const row = await insertBooking(inside, vehicle, depot, request, now);
    await noteChanges(transaction, ctx, [
      noteBooking('booked', vehicle.unit, null, { row, timeZone: depot.timeZone }),
    ]);
    return readBooking(inside, row.id, now);
  });
}

/** A depot at which the one who asks may book. */
export async function findOwnDepot(ctx: Context, id: string | null, unit: string): Promise<PlannedDepot> {
  if (id === null)
    throw refuse(wrong('depot', `${unit} belongs to no depot: say at which one it is to be inspected.`));
  const depot = await findDepot(ctx.db, id);
  if (depot === null) throw refuse(wrong('depot', `No depot '${id}' is known.`));
  if (isWithin(ctx, id)) return depot;
  throw refuse({
    code: 'not_allowed',
    field: 'depot',
    message: `You do not work for ${depot.name}, so you cannot book its bays.`,
  });
}

export const hoursFor = (vehicle: Pick<HeldVehicle, 'inspectionHours'>): number =>
  vehicle.inspectionHours ?? USUAL_HOURS;

export function objectToVehicleDay(
  vehicle: HeldVehicle,
  { timeZone }: PlannedDepot,
  day: string,
  now: Date,
): Objection | null {
  return objectToAbsence(vehicle.unit, vehicle.unavailable, day, localOf(timeZone, now).day);
}

async function refuseSecond(db: Database, { key, unit }: HeldVehicle, now: Date): Promise<void> {
  const open = await findOpenBooking(db, key);
  if (open !== null) throw refuse(sayOpenBooking(unit, open, now));
}

async function insertBooking(
  ctx: Context,
  vehicle: HeldVehicle,
  depot: PlannedDepot,
  { day, bay, from, hours, note, reason }: BookingRequest,
  now: Date,
) {
  const insert = (place: Place | null) =>
    ctx.db
      .insert(bookings)
      .values({
        vehicle: vehicle.key,
        depot: depot.id,
        ...(place === null ? { state: 'put_off' as const } : { state: 'booked' as const, ...place }),
        note: note || null,
        reason: reason ?? null,
        createdAt: now,
        createdBy: ctx.actor.name,
        changedAt: now,
        changedBy: ctx.actor.name,
      })
      // Waits for whoever books the same place or vehicle at this moment; nothing comes back where they were first.
      .onConflictDoNothing()
      .returning();
  if (day === undefined) {
    const [row] = await insert(null);
    if (row !== undefined) return row;
    await refuseSecond(ctx.db, vehicle, now);
    throw new Error('what gives way to nothing must be stored');
  }
  const wish = { day, hours: hours ?? hoursFor(vehicle), bay, from };
  const objection = objectToWish(depot, wish, now) ?? objectToVehicleDay(vehicle, depot, day, now);
  if (objection !== null) throw refuse(objection);
  await lockBayDay(ctx.db, { depot: depot.id, day }, 'shared');
  // Each turn that fails had another booking in the way, which the next one sees.
  for (let turn = 0; turn < MOST_TURNS; turn += 1) {
    const [row] = await insert(await findPlace(ctx.db, depot, wish, now));
    if (row !== undefined) return row;
    await refuseSecond(ctx.db, vehicle, now);
  }
  throw new SlipdriftError(
    'busy',
    `The bays of ${depot.name} are being booked faster than this booking finds a free one. Nothing was booked; send it again.`,
    { retryAfterS: 1 },
  );
}
