import { and, asc, eq, type SQL, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { vehicles } from '#db/schema/fleet.ts';
import { readingSpans } from '#db/schema/intake.ts';
import { offsetKm } from './joined-km.ts';
import { type Sight, seenBy } from './seen-vehicles.ts';

/** A life as JSON brings it, moments in ms since 1970. */
export interface StoredLife {
  fittedKm: number;
  fittedAtMs: number | null;
  removedKm: number | null;
  removedAtMs: number | null;
  ended: 'failed' | 'preventive' | 'retired' | null;
  mode: string | null;
  source: string;
  supplier: string | null;
  /** before it was fitted here */
  runKm: number | null;
}

const ms = (moment: string) => sql.raw(`(extract(epoch from ${moment}) * 1000)::float8`);

const ofVehicle: SQL<StoredLife[]> = sql<StoredLife[]>`coalesce((
  select jsonb_agg(jsonb_build_object('fittedKm', l.fitted_km, 'fittedAtMs', ${ms('l.fitted_at')},
    'removedKm', l.removed_km, 'removedAtMs', ${ms('l.removed_at')}, 'ended', l.ended, 'mode', l.mode,
    'source', l.source, 'supplier', l.supplier, 'runKm', l.run_km) order by l.fitted_km)
  from lives l where l.vehicle = vehicles.key), '[]')`;

/** Number of the first stretch: lives are numbered by mileage, so the first of the first life. */
const firstStretch: SQL<number | null> = sql<number | null>`(
  select t.stretch from stretch_totals t where t.vehicle = vehicles.key order by t.life, t.stretch limit 1)`;

/** What the first reading showed; null where retention has dropped it. */
const firstShownKm: SQL<number | null> = sql<number | null>`(
  select r.odometer_km::float8 from readings r where r.vehicle = vehicles.key and r.at = reading_spans.first_at)`;

/** What is on record of the converters of all vehicles that somebody sees, retired ones too. */
export function readLifeRecords(db: Database, sight: Sight, only?: SQL) {
  return db
    .select({
      vehicle: vehicles.key,
      unit: vehicles.unit,
      platform: vehicles.platform,
      depot: vehicles.depot,
      firstReadingAt: readingSpans.firstAt,
      lastReadingAt: readingSpans.lastAt,
      odometerKm: readingSpans.odometerKm,
      offsetKm: sql<number>`${sql.raw(offsetKm('vehicles.key'))}`,
      firstStretch,
      firstShownKm,
      lives: ofVehicle,
    })
    .from(vehicles)
    .leftJoin(readingSpans, eq(readingSpans.vehicle, vehicles.key))
    .where(and(seenBy(sight), only))
    .orderBy(asc(vehicles.key));
}

export type LifeRecordRow = Awaited<ReturnType<typeof readLifeRecords>>[number];
