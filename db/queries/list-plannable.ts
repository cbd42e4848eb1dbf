import { and, asc, eq, gt, inArray, isNotNull, lt, or, type SQL, sql } from 'drizzle-orm';
import { type Database, rawClient } from '#db/client.ts';
import { assessments } from '#db/schema/analysis.ts';
import { depots, vehicles } from '#db/schema/fleet.ts';
import { bookings } from '#db/schema/planning.ts';
import { readLastInspections } from './last-inspection.ts';
import { openBooking } from './open-booking.ts';
import { type Sight, seenBy } from './seen-vehicles.ts';

export interface PlannableFilter {
  sight: Sight;
  /** of these depots; all, and vehicles of none, where undefined */
  depots: readonly string[] | undefined;
  /** these alone; else all of which there is an assessment or an open booking */
  units: readonly string[] | undefined;
  now: Date;
}

/** Vehicles read at once: a fleet in one piece would keep other requests waiting while its rows are taken apart. */
const PAGE = 1000;

/** Vehicles in service with what a plan weighs them by, and their open booking, page by page. */
export async function* readPlannable(db: Database, filter: PlannableFilter) {
  for (let after = 0; ; ) {
    const page = await readPage(db, filter, after);
    yield page;
    const last = page.at(-1);
    if (last === undefined || page.length < PAGE) return;
    after = last.key;
  }
}

async function readPage(db: Database, filter: PlannableFilter, after: number) {
  const fact = (name: string): SQL => sql`${assessments.facts} -> ${sql.raw(`'${name}'`)}`;
  const rows = await db
    .select({
      key: vehicles.key,
      unit: vehicles.unit,
      depot: vehicles.depot,
      unavailable: vehicles.unavailable,
      platform: vehicles.platform,
      asOf: assessments.asOf,
      rank: assessments.rank,
      grade: assessments.grade,
      kmPerDay: assessments.kmPerDay,
      chances: sql<[number, number][] | null>`${fact('chances')}`,
      codes: sql<number | null>`${fact('codes')}`,
      booking: bookings,
      bookingDepot: depots,
    })
    .from(vehicles)
    .leftJoin(assessments, eq(assessments.vehicle, vehicles.key))
    .leftJoin(bookings, openBooking)
    .leftJoin(depots, eq(depots.id, bookings.depot))
    .where(
      and(
        gt(vehicles.key, after),
        eq(vehicles.retired, false),
        seenBy(filter.sight),
        filter.depots === undefined ? undefined : inArray(vehicles.depot, [...filter.depots]),
        filter.units === undefined
          ? or(isNotNull(assessments.vehicle), isNotNull(bookings.id))
          : inArray(vehicles.unit, [...filter.units]),
      ),
    )
    .orderBy(asc(vehicles.key))
    .limit(PAGE);
  const inspections = await readLastInspections(
    db,
    rows.map(({ key }) => key),
    filter.now,
  );
  return rows.map((row) => ({ ...row, inspectedOn: inspections.get(row.key) ?? null }));
}

export type PlannableVehicle = Awaited<ReturnType<typeof readPage>>[number];

/** Median kilometres per day of the vehicles that drive, by platform; '' for the whole fleet. */
export async function readUsualPaces(db: Database): Promise<ReadonlyMap<string, number>> {
  const rows = await rawClient(db)<{ platform: string; kmPerDay: number }[]>`
    select coalesce(v.platform, '') as platform,
      (percentile_cont(0.5) within group (order by a.km_per_day))::float8 as "kmPerDay"
    from assessments a join vehicles v on v.key = a.vehicle
    where not v.retired and a.km_per_day > 0
    group by grouping sets ((v.platform), ())
    order by grouping(v.platform)`;
  return new Map(rows.map(({ platform, kmPerDay }) => [platform, kmPerDay]));
}

/** What is booked at depots and not over yet. */
export async function listAhead(
  db: Database,
  at: readonly string[],
  { now, before }: { now: Date; before: Date },
) {
  const { depot, day, bay, startsAt, endsAt } = bookings;
  const rows = await db
    .select({ depot, day, bay, startsAt, endsAt })
    .from(bookings)
    .where(and(eq(bookings.state, 'booked'), inArray(depot, [...at]), gt(endsAt, now), lt(startsAt, before)));
  return rows.flatMap((row) =>
    row.day === null || row.bay === null || row.startsAt === null || row.endsAt === null
      ? []
      : [{ depot: row.depot, day: row.day, bay: row.bay, startsAt: row.startsAt, endsAt: row.endsAt }],
  );
}

/** Why vehicles stand where they stand, as the engine gives it. */
export function listFirstReasons(db: Database, keys: readonly number[]) {
  return db
    .select({ key: assessments.vehicle, reason: sql<unknown>`${assessments.brief} -> 'reasons' -> 0` })
    .from(assessments)
    .where(inArray(assessments.vehicle, [...keys]));
}
