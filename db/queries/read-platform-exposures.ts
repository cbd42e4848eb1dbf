import { type Database, rawClient } from '#db/client.ts';

/** What the converter fitted now has borne in one vehicle. */
export interface VehicleExposure {
  /** sums over its readings, kW and km/h; 0 where torque or speed is not known */
  heatKw: number;
  speedKmh: number;
  /** usable readings with a fluid temperature, and those of them above the edge */
  readings: number;
  hot: number;
}

/**
 * Exposure of every vehicle of a platform, '' for those with none, in the life of its newest stretch. `hotFrom` is the
 * number of the first hot bin of fluid temperature, from 0.
 */
export function readPlatformExposures(
  db: Database,
  platform: string,
  hotFrom: number,
): Promise<VehicleExposure[]> {
  return rawClient(db)<VehicleExposure[]>`
    select coalesce(sum(t.heat_kw_sum), 0)::float8 as "heatKw",
      coalesce(sum(t.heat_speed_sum), 0)::float8 as "speedKmh",
      coalesce(sum(bins.n), 0)::integer as readings, coalesce(sum(bins.hot), 0)::integer as hot
    from vehicles v
    join lateral (
      select life from stretch_totals n where n.vehicle = v.key order by n.last_at desc limit 1) newest on true
    join stretch_totals t on t.vehicle = v.key and t.life = newest.life
    cross join lateral (
      select sum(bin) as n, sum(bin) filter (where place > ${hotFrom}) as hot
      from unnest(t.fluid_bins) with ordinality as b(bin, place)) bins
    where coalesce(v.platform, '') = ${platform} and not v.retired
    group by v.key`;
}
