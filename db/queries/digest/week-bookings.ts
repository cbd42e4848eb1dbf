import { and, asc, count, eq, gt, gte, inArray, lte, ne, or, type SQL, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { depots, vehicles } from '#db/schema/fleet.ts';
import { bookings } from '#db/schema/planning.ts';
import type { Span } from './grade-changes.ts';
import { ofPart, type SeenPart } from './seen-part.ts';

const list = (db: Database, part: SeenPart, which: SQL | undefined, order: SQL) =>
  db
    .select({
      unit: vehicles.unit,
      home: vehicles.depot,
      booking: bookings,
      depotName: depots.name,
      timeZone: depots.timeZone,
    })
    .from(bookings)
    .innerJoin(vehicles, eq(vehicles.key, bookings.vehicle))
    .innerJoin(depots, eq(depots.id, bookings.depot))
    .where(and(which, ofPart(part)))
    .orderBy(order, asc(bookings.id));

/** Bookings made in a span, but those that were cancelled before it ended; the next day in a bay first. */
export const listNewBookings = (db: Database, part: SeenPart, { from, to }: Span) =>
  list(
    db,
    part,
    and(
      gt(bookings.createdAt, from),
      lte(bookings.createdAt, to),
      or(ne(bookings.state, 'cancelled'), gt(bookings.changedAt, to)),
    ),
    sql`${bookings.startsAt} asc nulls last`,
  );

/** Bookings that were closed as done in a span. */
export const listInspections = (db: Database, part: SeenPart, { from, to }: Span) =>
  list(
    db,
    part,
    and(eq(bookings.state, 'done'), gt(bookings.changedAt, from), lte(bookings.changedAt, to)),
    asc(bookings.changedAt),
  );

/** Bookings that are over and not closed, the oldest first. */
export const listPastBookings = (db: Database, part: SeenPart, now: Date) =>
  list(db, part, and(eq(bookings.state, 'booked'), lte(bookings.endsAt, now)), asc(bookings.endsAt));

export type WeekBooking = Awaited<ReturnType<typeof listNewBookings>>[number];

/** Open bookings of these vehicles. */
export const listOpenBookings = (db: Database, keys: readonly number[]) =>
  db
    .select({ booking: bookings, depotName: depots.name, timeZone: depots.timeZone })
    .from(bookings)
    .innerJoin(depots, eq(depots.id, bookings.depot))
    .where(and(inArray(bookings.vehicle, [...keys]), inArray(bookings.state, ['booked', 'put_off'])));

/** Hours of bays that bookings take or took from day to day, both included, by depot. */
export const sumBookedHours = (db: Database, fromDay: string, toDay: string) =>
  db
    .select({
      depot: bookings.depot,
      bookings: count(),
      hours: sql<number>`sum(extract(epoch from ${bookings.endsAt} - ${bookings.startsAt})::float8) / 3600`,
    })
    .from(bookings)
    .where(
      and(inArray(bookings.state, ['booked', 'done']), gte(bookings.day, fromDay), lte(bookings.day, toDay)),
    )
    .groupBy(bookings.depot);
