import { and, asc, count, eq, gt, isNull, lte, or, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { accessKeys } from '#db/schema/access.ts';
import { vehicles } from '#db/schema/fleet.ts';
import { readingSpans, readings } from '#db/schema/intake.ts';
import type { Span } from './grade-changes.ts';
import { ofPart, type SeenPart } from './seen-part.ts';

/**
 * Vehicles whose last reading is of a span, and how many there are whose last one is older. `asOf` is for a week that is
 * past: what came after it does not count. Null asks what is known of now, and reads no readings.
 */
export async function findQuietVehicles(db: Database, part: SeenPart, { from, to }: Span, asOf: Date | null) {
  const newest = db
    .select({ at: readings.at })
    .from(readings)
    .where(and(eq(readings.vehicle, vehicles.key), asOf === null ? undefined : lte(readings.at, asOf)))
    .orderBy(sql`${readings.at} desc`)
    .limit(1);
  const last =
    asOf === null
      ? sql<Date>`${readingSpans.lastAt}`.mapWith(readingSpans.lastAt)
      : sql<Date>`(${newest})`.mapWith(readings.at);
  const known = db
    .select({
      key: vehicles.key,
      unit: vehicles.unit,
      depot: vehicles.depot,
      lastReadingAt: last.as('last_at'),
    })
    .from(vehicles)
    .innerJoin(readingSpans, eq(readingSpans.vehicle, vehicles.key))
    .where(and(eq(vehicles.retired, false), ofPart(part)))
    .as('known');
  const [rows, [longer]] = await Promise.all([
    db
      .select()
      .from(known)
      .where(and(gt(known.lastReadingAt, from), lte(known.lastReadingAt, to)))
      .orderBy(asc(known.lastReadingAt), asc(known.key)),
    db.select({ n: count() }).from(known).where(lte(known.lastReadingAt, from)),
  ]);
  return { rows, longer: longer?.n ?? 0 };
}

/** Keys that deliver, still may, and were last used in a span. */
export const findQuietKeys = (db: Database, { from, to }: Span, now: Date) =>
  db
    .select({ name: accessKeys.name, usedAt: accessKeys.usedAt })
    .from(accessKeys)
    .where(
      and(
        eq(accessKeys.right, 'deliver'),
        isNull(accessKeys.revokedAt),
        or(isNull(accessKeys.expiresAt), gt(accessKeys.expiresAt, now)),
        gt(accessKeys.usedAt, from),
        lte(accessKeys.usedAt, to),
      ),
    )
    .orderBy(asc(accessKeys.usedAt), asc(accessKeys.name));
