import { type Database, rawClient } from '#db/client.ts';
import type { StoredTrackPoint } from './read-life-tracks.ts';

/** How far vehicles had come by a moment at least: where the last stretch that had begun by then begins. */
export const readPlacesReached = (
  db: Database,
  vehicles: readonly number[],
  moment: Date,
  stretchKm: number,
): Promise<StoredTrackPoint[]> => rawClient(db)<StoredTrackPoint[]>`
  select distinct on (vehicle) vehicle, (extract(epoch from first_at) * 1000)::float8 as ms,
    (stretch * ${stretchKm}::float8) as km
  from stretch_totals where vehicle = any(${vehicles as number[]}::integer[]) and first_at < ${moment}
  order by vehicle, first_at desc`;
