import type { Database } from '#db/client.ts';
import { readLifeRecords } from '#db/queries/read-life-records.ts';
import { readPlacesReached } from '#db/queries/read-places-reached.ts';
import { platforms } from '#db/schema/fleet.ts';
import type { LifeHazard } from '#server/engine/life/platform-life.ts';
import { STRETCH_KM } from '#server/engine/stretches/build-stretches.ts';
import { fitLife, groupByPlatform } from '#server/services/lives/learn-life.ts';
import { limitToPeriod } from '#server/services/lives/limit-to-period.ts';
import { observeLives } from '#server/services/lives/observe-lives.ts';
import { countedLife } from '#server/services/lives/read-fitted-life.ts';
import { toVehicleRecord } from '#server/services/lives/to-vehicle-record.ts';
import type { VehicleRecord } from '#server/services/lives/vehicle-record.ts';

/** Fits the life of a platform's converters from what the whole fleet had lived by a day. */
export async function prepareLifeFits(
  db: Database,
): Promise<(platform: string, dayEndMs: number) => Promise<LifeHazard | null>> {
  const [rows, known] = await Promise.all([
    readLifeRecords(db, { depots: null, atShopOnly: false }),
    db.select().from(platforms),
  ]);
  const records = rows.map(toVehicleRecord);
  const keys = records.map(({ vehicle }) => vehicle);
  return async (platform, dayEndMs) => {
    const row = known.find(({ id }) => id === platform);
    if (row === undefined) return null;
    // Where a later reading shows that a vehicle stood in between was not known: each is where it had come to at least.
    const reached = await readPlacesReached(db, keys, new Date(dayEndMs), STRETCH_KM);
    const tracks = new Map(reached.map(({ vehicle, ms, km }) => [vehicle, [{ ms, km }]]));
    const earlier = records.map((record) => forgetLater(record, dayEndMs));
    const past = limitToPeriod(earlier, { fromMs: null, toMs: dayEndMs }, tracks, 'first_reading');
    const { lives } = observeLives(past.records, { records: 'first_reading', count: 'failed' });
    return countedLife(fitLife(row, groupByPlatform(lives)));
  };
}

/** What carries a later day is no place that the vehicle was known to come to. */
function forgetLater(record: VehicleRecord, dayEndMs: number): VehicleRecord {
  const isLater = (atMs: number | null) => atMs !== null && atMs >= dayEndMs;
  return {
    ...record,
    lives: record.lives
      .filter(({ fittedAtMs }) => !isLater(fittedAtMs))
      .map((life) =>
        isLater(life.removedAtMs)
          ? { ...life, removedKm: null, removedAtMs: null, ended: null, mode: null }
          : life,
      ),
  };
}
