import { type Database, rawClient } from '#db/client.ts';
import { readBinaryCopy } from './read-binary-copy.ts';

export interface StretchRecord {
  vehicle: number;
  life: number;
  band: number;
  /** ms since 1970 */
  firstAtMs: number;
  lastAtMs: number;
  n: number;
  weight: number;
  effective: number;
  odometerKm: number;
  slipRpm: number;
  scaleRpm: number;
  dutyPct: number;
  fluidC: number | null;
  loadPct: number | null;
  moments: number[];
}

/** Stretches of some vehicles, in order of vehicle, life, band and kilometres. */
export async function readStretches(db: Database, vehicles: readonly number[]): Promise<StretchRecord[]> {
  if (vehicles.length === 0) return [];
  if (vehicles.length === 1) return readAll(db, vehicles);
  return db.transaction(async (transaction) => {
    // The key has them in order already. Where that is not seen, some thousand a vehicle are put in order in memory, not in files.
    await rawClient(transaction).unsafe(
      "set local enable_bitmapscan = off; set local enable_seqscan = off; set local enable_sort = off; set local work_mem = '64MB'",
    );
    const records = await readAll(transaction, vehicles);
    // The caller may have more to do in this transaction.
    await rawClient(transaction).unsafe(
      'set local enable_bitmapscan to default; set local enable_seqscan to default; set local enable_sort to default; set local work_mem to default',
    );
    return records;
  });
}

function readAll(db: Database, vehicles: readonly number[]): Promise<StretchRecord[]> {
  return readBinaryCopy(
    rawClient(db),
    `select vehicle, life, band, first_at, last_at, n, weight, effective, odometer_km, slip_rpm, scale_rpm, duty_pct,
      fluid_c, load_pct, moments
    from stretches where vehicle = any('{${vehicles.join(',')}}'::integer[])
    order by vehicle, life, band, stretch`,
    (row) => ({
      vehicle: row.integer(),
      life: row.smallint(),
      band: row.smallint(),
      firstAtMs: row.instantMs(),
      lastAtMs: row.instantMs(),
      n: row.integer(),
      weight: row.double(),
      effective: row.double(),
      odometerKm: row.double(),
      slipRpm: row.double(),
      scaleRpm: row.double(),
      dutyPct: row.double(),
      fluidC: row.doubleOrNull(),
      loadPct: row.doubleOrNull(),
      moments: row.doubles(),
    }),
  );
}
