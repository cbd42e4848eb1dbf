import { type BookingRow, listBookingRows } from '#db/queries/list-bookings.ts';
import type { Depot } from '#server/contract/fleet.ts';
import type { DepotPreview } from '#server/contract/settings.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { PlannedDepot } from '#server/services/bookings/object-to-day.ts';
import { objectToPlanned } from '#server/services/bookings/object-to-planned.ts';
import { localOf } from '#server/services/calendar/local-time.ts';
import type { Context } from '#server/services/context.ts';
import { findDepotChange, readDepots } from '#server/services/fleet/change-depot.ts';
import { listMet, type Met, moveToZone } from './move-to-zone.ts';

type Misfit = DepotPreview['misfits'][number];

/**
 * Which bookings of today and later fit a depot now and would not after a change, and which ones would stand in the way
 * of it, of whatever day. `body` is one depot, as it would be saved. Nothing is stored.
 */
export async function previewDepot(ctx: Context, body: unknown): Promise<DepotPreview> {
  const [element, second] = readDepots(body);
  if (element === undefined || second !== undefined)
    throw new SlipdriftError('invalid_request', 'Send one depot. Nothing was changed.');
  const { before, after } = await findDepotChange(ctx.db, element);
  if (before === null) return { misfits: [], open: 0 };
  const [was, will] = [toPlannedDepot(before), toPlannedDepot(after)];
  const today = localOf(was.timeZone, ctx.now()).day;
  const rows = await listBookingRows(ctx.db, { ofDepots: null, at: [after.id], states: ['booked'] });
  const moved = rows.map((row) => moveRow(row, was.timeZone, will.timeZone));
  const met = new Map(
    listMet(moved.flatMap(toMet), will.timeZone)
      .toReversed()
      .map((one) => [one.met.id, one.why]),
  );
  const misfits: Misfit[] = [];
  let open = 0;
  for (const [i, row] of rows.entries()) {
    const then = moved[i] ?? row;
    const isAhead = row.booking.day !== null && row.booking.day >= today;
    const meets = met.get(row.booking.id) ?? null;
    if (isAhead || meets !== null) open += 1;
    const fitted = isAhead && objectToPlanned(was, row, today) === null;
    const why = meets ?? (fitted ? objectToPlanned(will, then, today) : null);
    if (why !== null) misfits.push(...toMisfit(then, will.timeZone, why));
  }
  return { misfits, open };
}

const toPlannedDepot = (depot: Depot): PlannedDepot => ({
  id: depot.id,
  name: depot.name,
  bays: depot.bays,
  timeZone: depot.time_zone,
  week: depot.week,
  specialDays: depot.special_days,
});

function moveRow(row: BookingRow, from: string, to: string): BookingRow {
  const span = moveToZone(row.booking, from, to);
  return span === null ? row : { ...row, booking: { ...row.booking, ...span } };
}

function toMet({ booking: { id, day, bay, startsAt, endsAt }, unit }: BookingRow): Met[] {
  if (day === null || bay === null || startsAt === null || endsAt === null) return [];
  return [{ id, day, bay, startsAt, endsAt, unit }];
}

const toMisfit = (row: BookingRow, timeZone: string, why: string): Misfit[] =>
  toMet(row).map(({ id, day, bay, startsAt, endsAt, unit }) => {
    const [from = '', to = ''] = [startsAt, endsAt].map((at) => localOf(timeZone, at).clock);
    return { booking: id, vehicle: unit, day, from, to, bay, why };
  });
