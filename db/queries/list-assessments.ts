import { and, asc, count, desc, eq, inArray, max, type SQL, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { assessments } from '#db/schema/analysis.ts';
import { depots, vehicles } from '#db/schema/fleet.ts';
import { bookings, standings } from '#db/schema/planning.ts';
import { containsText } from './contains-text.ts';
import { openBooking } from './open-booking.ts';
import { type Sight, seenBy } from './seen-vehicles.ts';
import { standingOfWeekBefore } from './standings.ts';

export interface ListFilter {
  depot?: string | undefined;
  platform?: string | undefined;
  grades?: readonly ('hold' | 'book' | 'watch' | 'steady' | 'unknown')[] | undefined;
  /** part of the unit number */
  q?: string | undefined;
  /** whose list it is */
  sight: Sight;
}

export type ListSort = 'rank' | 'vehicle' | 'chance' | 'distance' | 'slip' | 'drift' | 'last_reading';

function where({ depot, platform, grades, q, sight }: ListFilter): SQL | undefined {
  return and(
    eq(vehicles.retired, false),
    seenBy(sight),
    depot === undefined ? undefined : eq(vehicles.depot, depot),
    platform === undefined ? undefined : eq(vehicles.platform, platform),
    grades === undefined ? undefined : inArray(assessments.grade, [...grades]),
    q === undefined ? undefined : containsText(vehicles.unit, q),
  );
}

const order: Record<ListSort, SQL> = {
  rank: asc(assessments.rank),
  vehicle: asc(vehicles.unit),
  chance: sql`${assessments.chance} desc nulls last`,
  distance: sql`${assessments.kmP50} asc nulls last`,
  slip: sql`${assessments.referenceSlipRpm} desc nulls last`,
  drift: sql`${assessments.driftRpmPerKm} desc nulls last`,
  last_reading: desc(vehicles.lastReadingAt),
};

const columns = {
  key: assessments.vehicle,
  rank: assessments.rank,
  grade: assessments.grade,
  pattern: assessments.pattern,
  referenceSlipRpm: assessments.referenceSlipRpm,
  baselineRpm: assessments.baselineRpm,
  limitRpm: assessments.limitRpm,
  onsetKm: assessments.onsetKm,
  driftRpmPerKm: assessments.driftRpmPerKm,
  driftLow: assessments.driftLow,
  driftHigh: assessments.driftHigh,
  q: assessments.q,
  kmP10: assessments.kmP10,
  kmP50: assessments.kmP50,
  kmP90: assessments.kmP90,
  kmPerDay: assessments.kmPerDay,
  chance: assessments.chance,
  costAvoided: assessments.costAvoided,
  brief: assessments.brief,
  unit: vehicles.unit,
  depot: vehicles.depot,
  platform: vehicles.platform,
  odometerKm: vehicles.odometerKm,
  lastReadingAt: vehicles.lastReadingAt,
  /** its open booking */
  booking: {
    id: bookings.id,
    state: bookings.state,
    depot: bookings.depot,
    bay: bookings.bay,
    day: bookings.day,
    startsAt: bookings.startsAt,
    endsAt: bookings.endsAt,
  },
  bookingTimeZone: depots.timeZone,
  weekAgo: {
    rank: standings.rank,
    grade: standings.grade,
    referenceSlipRpm: standings.referenceSlipRpm,
    kmP50: standings.kmP50,
    chance: standings.chance,
  },
};

/** Rows of the list with what stands beside an assessment: the open booking, and the standing of a week ago. */
const listed = (db: Database, now: Date) =>
  db
    .select(columns)
    .from(assessments)
    .innerJoin(vehicles, eq(vehicles.key, assessments.vehicle))
    .leftJoin(bookings, openBooking)
    .leftJoin(depots, eq(depots.id, bookings.depot))
    .leftJoin(standings, standingOfWeekBefore(now));

/** Rows of the inspection list in an order that the database knows. */
export function listAssessments(
  db: Database,
  filter: ListFilter,
  sort: ListSort,
  limit: number,
  offset: number,
  now: Date,
) {
  return listed(db, now)
    .where(where(filter))
    .orderBy(order[sort], asc(assessments.rank), asc(assessments.vehicle))
    .limit(limit)
    .offset(offset);
}

export type ListedAssessment = Awaited<ReturnType<typeof listAssessments>>[number];

/** One vehicle's row of the list. */
export async function findAssessment(
  db: Database,
  vehicle: number,
  now: Date,
): Promise<ListedAssessment | null> {
  const [row] = await listed(db, now).where(eq(assessments.vehicle, vehicle));
  return row ?? null;
}

/** Rows by their keys, in no order. */
export function listAssessmentsByKey(db: Database, keys: readonly number[], now: Date) {
  return listed(db, now).where(inArray(assessments.vehicle, [...keys]));
}

/** The stored facts of all vehicles that a filter lets through, for what the database cannot order or sum. */
export function listFacts(db: Database, filter: ListFilter) {
  return db
    .select({
      key: assessments.vehicle,
      unit: vehicles.unit,
      platform: vehicles.platform,
      grade: assessments.grade,
      kmP50: assessments.kmP50,
      kmPerDay: assessments.kmPerDay,
      facts: assessments.facts,
    })
    .from(assessments)
    .innerJoin(vehicles, eq(vehicles.key, assessments.vehicle))
    .where(where(filter))
    .orderBy(asc(assessments.rank));
}

/** How many rows a filter lets through, how many of each grade, and when the newest was assessed. */
export async function countAssessments(db: Database, filter: ListFilter) {
  const rows = await db
    .select({ grade: assessments.grade, n: count(), asOf: max(assessments.asOf) })
    .from(assessments)
    .innerJoin(vehicles, eq(vehicles.key, assessments.vehicle))
    .where(where(filter))
    .groupBy(assessments.grade);
  const asOf = rows.reduce<Date | null>(
    (newest, row) => (newest === null || (row.asOf ?? newest) > newest ? row.asOf : newest),
    null,
  );
  return {
    total: rows.reduce((sum, row) => sum + row.n, 0),
    byGrade: new Map(rows.map((row) => [row.grade, row.n])),
    asOf,
  };
}
