import type { Database } from '#db/client.ts';
import { readLifeRecords } from '#db/queries/read-life-records.ts';
import { readLifeTracks } from '#db/queries/read-life-tracks.ts';
import { platforms } from '#db/schema/fleet.ts';
import type { LifeHazard } from '#server/engine/life/platform-life.ts';
import { STRETCH_KM } from '#server/engine/stretches/build-stretches.ts';
import { fitLife, groupByPlatform } from '#server/services/lives/learn-life.ts';
import { limitToPeriod } from '#server/services/lives/limit-to-period.ts';
import { observeLives } from '#server/services/lives/observe-lives.ts';
import type { TrackPoint } from '#server/services/lives/place-on-track.ts';
import { countedLife } from '#server/services/lives/read-fitted-life.ts';
import { toVehicleRecord } from '#server/services/lives/to-vehicle-record.ts';

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
    const tracks = new Map<number, TrackPoint[]>();
    for (const { vehicle, ms, km } of await readLifeTracks(db, keys, [new Date(dayEndMs)], STRETCH_KM)) {
      const own = tracks.get(vehicle);
      if (own === undefined) tracks.set(vehicle, [{ ms, km }]);
      else own.push({ ms, km });
    }
    const past = limitToPeriod(records, { fromMs: null, toMs: dayEndMs }, tracks, 'first_reading');
    const { lives } = observeLives(past.records, { records: 'first_reading', count: 'failed' });
    return countedLife(fitLife(row, groupByPlatform(lives)));
  };
}
