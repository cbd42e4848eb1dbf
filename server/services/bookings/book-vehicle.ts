import { lockBayDay } from '#db/queries/lock-bay-day.ts';
import { findOpenBooking, type HeldVehicle, holdVehicle } from '#db/queries/lock-booking.ts';
import { bookings } from '#db/schema/planning.ts';
import type { Booking, BookingRequest } from '#server/contract/bookings.ts';
import { platformInput } from '#server/contract/fleet.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { sightOf } from '#server/services/sight.ts';
import { findPlace, objectToWish, type Place } from './find-place.ts';
import { noteBooking } from './note-booking.ts';
import type { PlannedDepot } from './object-to-day.ts';
import { objectToVehicleDay } from './object-to-vehicle-day.ts';
import { refuse, wrong } from './objection.ts';
import { ownDepotOf } from './own-depot-of.ts';
import { sayOpenBooking } from './say-open-booking.ts';
import { storeOrDoubt } from './store-or-doubt.ts';
import { toBooking } from './to-booking.ts';

/** How long an inspection takes where nobody has said what platform the vehicle is. */
const USUAL_HOURS = platformInput.shape.inspection_hours.parse(undefined);
/** More than are ever booked at one depot within a moment. */
const MOST_TURNS = 1000;

export const hoursFor = ({ inspectionHours }: Pick<HeldVehicle, 'inspectionHours'>): number =>
  inspectionHours ?? USUAL_HOURS;

/** Books one vehicle, or puts it among those that wait for a day. One short transaction, which decides by itself. */
export async function bookVehicle(ctx: Context, request: BookingRequest): Promise<Booking> {
  const now = ctx.now();
  return storeOrDoubt(ctx, 'it may be booked', async (inside) => {
    const held = await holdVehicle(inside.db, {
      unit: request.vehicle,
      sight: sightOf(ctx.actor),
      depot: request.depot ?? null,
    });
    if (held === null) throw refuse(wrong('vehicle', `No vehicle '${request.vehicle}' is known.`));
    const { unit, retired, platform, unavailable, depot: home } = held.vehicle;
    if (retired) throw refuse(wrong('vehicle', `Vehicle ${unit} is retired.`));
    const depot = ownDepotOf(ctx, held, request.depot);
    const { open, openAt } = held;
    if (open !== null && openAt !== null) throw refuse(sayOpenBooking(unit, { row: open, ...openAt }, now));
    const booking = await insertBooking(inside, held, depot, request, now);
    const { name: depotName, timeZone } = depot;
    await noteChanges(inside.db, ctx, [noteBooking('booked', unit, null, { row: booking, timeZone })]);
    const { grade } = held;
    const row = { booking, unit, home, platform, unavailable, grade, firstReason: null, depotName, timeZone };
    return toBooking(ctx, row, now);
  });
}

async function refuseSecond({ db }: Context, { vehicle }: HeldVehicle, now: Date): Promise<void> {
  const open = await findOpenBooking(db, vehicle.key);
  if (open !== null) throw refuse(sayOpenBooking(vehicle.unit, open, now));
}

async function insertBooking(
  ctx: Context,
  held: HeldVehicle,
  depot: PlannedDepot,
  { day, bay, from, hours, note, reason }: BookingRequest,
  now: Date,
) {
  const insert = (place: Place | null) =>
    ctx.db
      .insert(bookings)
      .values({
        vehicle: held.vehicle.key,
        depot: depot.id,
        ...(place === null
          ? { state: 'put_off' as const, hours: hours ?? null }
          : { state: 'booked' as const, ...place }),
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
    if (reason === undefined)
      throw refuse(
        wrong('reason', `${held.vehicle.unit} is to wait for a day: say why it waits, or name its day.`),
      );
    const [row] = await insert(null);
    if (row !== undefined) return row;
    await refuseSecond(ctx, held, now);
    throw new Error('what gives way to nothing must be stored');
  }
  const wish = { day, hours: hours ?? hoursFor(held), bay, from };
  const objection = objectToWish(depot, wish, now) ?? objectToVehicleDay(held, depot, day, now);
  if (objection !== null) throw refuse(objection);
  await lockBayDay(ctx.db, { depot: depot.id, day }, 'shared');
  // Each turn that fails had another booking in the way, which the next one sees.
  for (let turn = 0; turn < MOST_TURNS; turn += 1) {
    const [row] = await insert(await findPlace(ctx.db, depot, wish, now));
    if (row !== undefined) return row;
    await refuseSecond(ctx, held, now);
  }
  const message = `The bays of ${depot.name} are being booked faster than this booking finds a free one. Send it again.`;
  throw new SlipdriftError('busy', `${message} Nothing was booked.`, {
    errors: [{ field: 'day', message }],
    retryAfterS: 1,
  });
}
