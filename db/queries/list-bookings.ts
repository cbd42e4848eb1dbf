import { and, asc, eq, gte, inArray, isNotNull, isNull, lte, or, type SQL, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { assessments } from '#db/schema/analysis.ts';
import { depots, vehicles } from '#db/schema/fleet.ts';
import { bookings } from '#db/schema/planning.ts';

type State = (typeof bookings.$inferSelect)['state'];

export interface BookingFilter {
  /** of the one who asks, null for all: bookings at these, and of vehicles of these wherever they go */
  ofDepots: readonly string[] | null;
  id?: number | undefined;
  /** where the bay is */
  at?: readonly string[] | undefined;
  vehicle?: string | undefined;
  states?: readonly State[] | undefined;
  /** first and last day; those that have none are not left out by these */
  fromDay?: string | undefined;
  toDay?: string | undefined;
}

const seen = (ofDepots: readonly string[] | null): SQL | undefined =>
  ofDepots === null
    ? undefined
    : or(inArray(bookings.depot, [...ofDepots]), inArray(vehicles.depot, [...ofDepots]));

const within = (column: SQL | undefined): SQL | undefined =>
  column === undefined ? undefined : or(isNull(bookings.day), column);

const columns = {
  booking: bookings,
  unit: vehicles.unit,
  /** depot that the vehicle belongs to */
  home: vehicles.depot,
  platform: vehicles.platform,
  unavailable: vehicles.unavailable,
  grade: assessments.grade,
  /** why it stands where it stands, as the engine gives it */
  firstReason: sql<unknown>`${assessments.brief} -> 'reasons' -> 0`,
  depotName: depots.name,
  timeZone: depots.timeZone,
};

/** Bookings with their vehicles, the first day first, those without a day last. */
export function listBookingRows(db: Database, filter: BookingFilter) {
  const { ofDepots, id, at, vehicle, states, fromDay, toDay } = filter;
  return db
    .select(columns)
    .from(bookings)
    .innerJoin(vehicles, eq(vehicles.key, bookings.vehicle))
    .innerJoin(depots, eq(depots.id, bookings.depot))
    .leftJoin(assessments, eq(assessments.vehicle, bookings.vehicle))
    .where(
      and(
        seen(ofDepots),
        id === undefined ? undefined : eq(bookings.id, id),
        at === undefined ? undefined : inArray(bookings.depot, [...at]),
        vehicle === undefined ? undefined : eq(vehicles.unit, vehicle),
        states === undefined ? undefined : inArray(bookings.state, [...states]),
        within(fromDay === undefined ? undefined : gte(bookings.day, fromDay)),
        within(toDay === undefined ? undefined : lte(bookings.day, toDay)),
      ),
    )
    .orderBy(
      sql`${bookings.day} asc nulls last`,
      asc(bookings.startsAt),
      asc(bookings.depot),
      asc(bookings.bay),
      asc(bookings.id),
    );
}

export type BookingRow = Awaited<ReturnType<typeof listBookingRows>>[number];

/** What has the bays of a depot within a span of time; `except` is a booking that is about to move. */
export async function findTakenBays(
  db: Database,
  { depot, from, to, except }: { depot: string; from: Date; to: Date; except: number | null },
) {
  const rows = await db
    .select({
      bay: bookings.bay,
      startsAt: bookings.startsAt,
      endsAt: bookings.endsAt,
      unit: vehicles.unit,
    })
    .from(bookings)
    .innerJoin(vehicles, eq(vehicles.key, bookings.vehicle))
    .where(
      and(
        eq(bookings.depot, depot),
        eq(bookings.state, 'booked'),
        isNotNull(bookings.bay),
        sql`tstzrange(${bookings.startsAt}, ${bookings.endsAt})
            && tstzrange(${from.toISOString()}::timestamptz, ${to.toISOString()}::timestamptz)`,
        except === null ? undefined : sql`${bookings.id} <> ${except}`,
      ),
    )
    .orderBy(asc(bookings.startsAt), asc(bookings.bay));
  return rows.flatMap(({ bay, startsAt, endsAt, unit }) =>
    bay === null || startsAt === null || endsAt === null ? [] : [{ bay, startsAt, endsAt, unit }],
  );
}

export type TakenBay = Awaited<ReturnType<typeof findTakenBays>>[number];
