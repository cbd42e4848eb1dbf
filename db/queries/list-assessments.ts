import { and, asc, count, eq, isNotNull, max, type SQL, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { prepareOnce } from '#db/prepare-once.ts';
import { assessments } from '#db/schema/analysis.ts';
import { depots, vehicles } from '#db/schema/fleet.ts';
import { readingSpans } from '#db/schema/intake.ts';
import { packets } from '#db/schema/packets.ts';
import { bookings, standings } from '#db/schema/planning.ts';
import { readLastInspections } from './last-inspection.ts';
import { hasBooking, type ListFilter, passes } from './list-filter.ts';
import { openBooking } from './open-booking.ts';
import { standingUpTo, weekBefore } from './standings.ts';

export type ListSort = 'rank' | 'vehicle' | 'chance' | 'distance' | 'slip' | 'drift' | 'last_reading';

const order: Record<ListSort, SQL> = {
  rank: asc(assessments.rank),
  vehicle: asc(vehicles.unit),
  chance: sql`${assessments.chance} desc nulls last`,
  distance: sql`${assessments.kmP50} asc nulls last`,
  slip: sql`${assessments.referenceSlipRpm} desc nulls last`,
  drift: sql`${assessments.driftRpmPerKm} desc nulls last`,
  last_reading: sql`${readingSpans.lastAt} desc nulls first`,
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
  odometerKm: readingSpans.odometerKm,
  lastReadingAt: readingSpans.lastAt,
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
  /** the closed packet that keeps the list calm about it */
  calm: { id: packets.id, outcome: packets.outcome, untilKm: packets.calmUntilKm, workAt: packets.workAt },
};

/** Rows of the list with what stands beside an assessment: the open booking, and the standing of a week ago. */
const listed = prepareOnce((db) =>
  db
    .select(columns)
    .from(assessments)
    .innerJoin(vehicles, eq(vehicles.key, assessments.vehicle))
    .leftJoin(readingSpans, eq(readingSpans.vehicle, assessments.vehicle))
    .leftJoin(bookings, openBooking)
    .leftJoin(depots, eq(depots.id, bookings.depot))
    .leftJoin(standings, standingUpTo(sql.placeholder('weekBefore')))
    .leftJoin(packets, eq(packets.id, assessments.calmPacket))
    .where(sql`${assessments.vehicle} = any(${sql.placeholder('keys')}::integer[])`)
    .prepare('listed'),
);

async function readListed(db: Database, keys: readonly number[], now: Date) {
  const [rows, inspections] = await Promise.all([
    listed(db).execute({ keys: [...keys], weekBefore: weekBefore(now) }),
    readLastInspections(db, keys, now),
  ]);
  return rows.map((row) => ({ ...row, inspectedOn: inspections.get(row.key) ?? null }));
}

export interface ListedKey {
  key: number;
  unit: string;
}

/**
 * Keys of the vehicles that a filter lets through, in an order that the database knows. Rows are wide and joined with much
 * else: a page is found by its keys, and only what it shows is read.
 */
export async function listKeys(
  db: Database,
  filter: ListFilter,
  sort: ListSort,
  page: { limit: number; offset: number } | null,
  now: Date,
): Promise<ListedKey[]> {
  const keys = db
    .select({ key: assessments.vehicle, unit: vehicles.unit })
    .from(assessments)
    .innerJoin(vehicles, eq(vehicles.key, assessments.vehicle))
    .leftJoin(readingSpans, eq(readingSpans.vehicle, assessments.vehicle))
    .where(passes(filter, now))
    .orderBy(order[sort], asc(assessments.rank), asc(assessments.vehicle));
  const paged = page === null ? keys : keys.limit(page.limit).offset(page.offset);
  return isPlain(filter) ? paged.prepare('keys').execute() : paged;
}

/** Whether it lets the whole fleet through: asked most, and of a few wordings, which are worth a plan that is kept. */
const isPlain = ({ sight, ...rest }: ListFilter): boolean =>
  sight.depots === null && !sight.atShopOnly && Object.values(rest).every((value) => value === undefined);

/** Rows of the inspection list by their keys, in the order of the keys. */
export async function listAssessments(db: Database, keys: readonly number[], now: Date) {
  if (keys.length === 0) return [];
  const rows = await readListed(db, keys, now);
  const byKey = new Map(rows.map((row) => [row.key, row]));
  return keys.flatMap((key) => byKey.get(key) ?? []);
}

export type ListedAssessment = Awaited<ReturnType<typeof listAssessments>>[number];

/** One vehicle's row of the list. */
export async function findAssessment(
  db: Database,
  vehicle: number,
  now: Date,
): Promise<ListedAssessment | null> {
  const [row] = await readListed(db, [vehicle], now);
  return row ?? null;
}

/** What the weeks ahead are told from: the vehicles that drift, with their stored chances. */
export async function listDrifting(db: Database, filter: ListFilter, now: Date) {
  const rows = await db
    .select({
      key: assessments.vehicle,
      unit: vehicles.unit,
      grade: assessments.grade,
      kmP50: assessments.kmP50,
      kmPerDay: assessments.kmPerDay,
      /** kilometres ahead and the chance within them, as stored */
      chances: sql`${assessments.facts} -> 'chances'`,
      isBooked: sql<boolean>`${hasBooking('open', now)}`,
    })
    .from(assessments)
    .innerJoin(vehicles, eq(vehicles.key, assessments.vehicle))
    .where(and(passes(filter, now), isNotNull(assessments.kmP50)))
    .orderBy(asc(assessments.rank));
  const inspections = await readLastInspections(
    db,
    rows.map(({ key }) => key),
    now,
  );
  return rows.map(({ key, isBooked, ...row }) => ({ ...row, seenTo: isBooked || inspections.has(key) }));
}

/** How many rows a filter lets through, how many of each grade, and when the newest was assessed. */
export async function countAssessments(db: Database, filter: ListFilter, now: Date) {
  const counted = db
    .select({ grade: assessments.grade, n: count(), asOf: max(assessments.asOf) })
    .from(assessments)
    .innerJoin(vehicles, eq(vehicles.key, assessments.vehicle))
    .where(passes(filter, now))
    .groupBy(assessments.grade);
  const rows = await (isPlain(filter) ? counted.prepare('counted').execute() : counted);
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
