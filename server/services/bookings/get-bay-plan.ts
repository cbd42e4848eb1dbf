import { type BookingRow, listBookingRows } from '#db/queries/list-bookings.ts';
import type { BayPlan, BayPlanQuery, DepotDay, PlannedBooking } from '#server/contract/bookings.ts';
import { addDays, dayOfDepot, listDays } from '#server/services/calendar/depot-days.ts';
import { hoursBetween, localOf } from '#server/services/calendar/local-time.ts';
import type { Context } from '#server/services/context.ts';
import { listUncoveredHolds } from './list-uncovered-holds.ts';
import type { PlannedDepot } from './object-to-day.ts';
import { objectToPlanned } from './object-to-planned.ts';
import { refuse, wrong } from './objection.ts';
import { listOwnDepots } from './own-depots.ts';
import { hoursOf, toBooking } from './to-booking.ts';

const DAYS = 14;
const MOST_DAYS = 92;

/** Depots with their days, what is booked in them, and what waits: the whole of the bay plan's screen in one answer. */
export async function getBayPlan(ctx: Context, query: BayPlanQuery): Promise<BayPlan> {
  const now = ctx.now();
  const own = await listOwnDepots(ctx, query.depot);
  const { from, to } = readSpan(query, own, now);
  const days = listDays(from, to);
  const at = own.map(({ id }) => id);
  const ofDepots = ctx.actor.depots;
  const askedFor = query.depot === undefined ? undefined : at;
  const [placed, open, holds] = await Promise.all([
    listBookingRows(ctx.db, { ofDepots, at, states: ['booked', 'done'], fromDay: from, toDay: to }),
    listBookingRows(ctx.db, { ofDepots, at: askedFor, states: ['booked', 'put_off'] }),
    listUncoveredHolds(ctx, { depot: query.depot }),
  ]);
  const bookingsOf = new Map(own.map(({ id }) => [id, placed.filter(({ booking }) => booking.depot === id)]));
  const shown = open.map((row) => toBooking(ctx, row, now));
  return {
    from,
    to,
    now: now.toISOString(),
    depots: own.map((depot) => ({
      id: depot.id,
      name: depot.name,
      time_zone: depot.timeZone,
      today: localOf(depot.timeZone, now).day,
      bays: depot.bays,
      days: days.map((day) => toDepotDay(depot, day, bookingsOf.get(depot.id) ?? [])),
    })),
    bookings: own
      .flatMap((depot) => (bookingsOf.get(depot.id) ?? []).map((row) => toPlanned(ctx, depot, row, now)))
      .toSorted((a, b) => (a.starts_at ?? '').localeCompare(b.starts_at ?? '') || a.id - b.id),
    put_off: shown.filter(({ state }) => state === 'put_off'),
    past: shown.filter(({ past }) => past),
    uncovered_holds: holds,
  };
}

/** Where depots lie far apart, the plan begins with the day that comes last. */
function readSpan(query: BayPlanQuery, own: readonly PlannedDepot[], now: Date) {
  const todays = own.map(({ timeZone }) => localOf(timeZone, now).day).toSorted();
  const from = query.from ?? todays[0] ?? now.toISOString().slice(0, 10);
  const to = query.to ?? addDays(from, (query.days ?? DAYS) - 1);
  if (to < from) throw refuse(wrong('to', `The last day, ${to}, is before the first, ${from}.`));
  if (to > addDays(from, MOST_DAYS - 1))
    throw refuse(wrong('to', `${from} to ${to} are more than the ${MOST_DAYS} days that one plan shows.`));
  return { from, to };
}

function toDepotDay(depot: PlannedDepot, day: string, rows: readonly BookingRow[]): DepotDay {
  const { bays, hours, note } = dayOfDepot(depot, day);
  return {
    day,
    bays,
    hours,
    note,
    bay_hours: hours === null ? 0 : bays * hoursBetween(hours),
    booked_hours: rows
      .filter(({ booking }) => booking.day === day)
      .reduce((sum, { booking }) => sum + (hoursOf(booking) ?? 0), 0),
  };
}

function toPlanned(ctx: Context, depot: PlannedDepot, row: BookingRow, now: Date): PlannedBooking {
  const whyNot = objectToPlanned(depot, row, localOf(depot.timeZone, now).day);
  return { ...toBooking(ctx, row, now), fits: whyNot === null, why_not: whyNot };
}
