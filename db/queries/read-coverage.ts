import { type Database, rawClient } from '#db/client.ts';

export interface PlatformCoverage {
  /** '' for vehicles with no platform */
  platform: string;
  /** with readings */
  vehicles: number;
  /** days between the first and last reading, summed over the vehicles */
  vehicleDays: number;
}

/** How much of their vehicles' time the stored readings of each platform span. */
export function readCoverage(db: Database): Promise<PlatformCoverage[]> {
  return rawClient(db)<PlatformCoverage[]>`
    select coalesce(v.platform, '') as platform, count(*)::integer as vehicles,
      (sum(extract(epoch from r.last_at - r.first_at)) / 86400)::float8 as "vehicleDays"
    from vehicles v join reading_spans r on r.vehicle = v.key
    group by 1 order by 1`;
}
