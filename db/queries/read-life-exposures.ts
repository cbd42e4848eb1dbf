import { type Database, rawClient } from '#db/client.ts';

/** How one converter was used, over the stretches of its life; null where nothing tells. */
export interface LifeExposures {
  vehicle: number;
  life: number;
  /** usable readings */
  readings: number;
  /** means over them, and shares from 0 to 1 */
  fluidC: number | null;
  hotShare: number | null;
  loadPct: number | null;
  /** of readings below the top command band */
  partialLockupShare: number | null;
  /** over the quiet stretches alone: sums over readings, kW and km/h */
  heatKw: number | null;
  speedKmh: number | null;
}

/**
 * Exposures of the lives of some vehicles, from their stretches. Clutch heat is slip times torque, so a clutch that slips
 * heats because it fails: it is summed over quiet stretches only, those whose slip at the reference point lies within
 * `quietShare` of the way from the life's own low level, the lower quartile of its stretches, to the limit.
 */
export function readLifeExposures(
  db: Database,
  vehicles: readonly number[],
  how: { firstHotBin: number; quietShare: number; limitRpm: number; topBand: number },
): Promise<LifeExposures[]> {
  const keys = vehicles as number[];
  return rawClient(db)<LifeExposures[]>`
    with own as materialized (
      select key, coalesce(p.limit_rpm, ${how.limitRpm}) as limit_rpm,
        coalesce(array_length(p.band_edges_pct, 1) - 2, ${how.topBand}) as top
      from vehicles v left join platforms p on p.id = v.platform where v.key = any(${keys}::integer[])
    ), bands as (
      select s.vehicle, s.life, sum(s.n)::integer as n,
        sum(s.n * s.fluid_c) / nullif(sum(s.n) filter (where s.fluid_c is not null), 0) as fluid_c,
        sum(s.n * s.load_pct) / nullif(sum(s.n) filter (where s.load_pct is not null), 0) as load_pct,
        coalesce(sum(s.n) filter (where s.band < own.top), 0)::float8 / nullif(sum(s.n), 0) as partial
      from stretches s join own on own.key = s.vehicle where s.band >= 0
      group by s.vehicle, s.life
    ), levels as (
      select s.vehicle, s.life, percentile_cont(0.25) within group (order by s.slip_rpm) as low
      from stretches s join own on own.key = s.vehicle where s.band = -1
      group by s.vehicle, s.life
    ), totals as (
      select t.vehicle, t.life, sum(bins.hot)::float8 / nullif(sum(bins.n), 0) as hot,
        sum(t.heat_kw_sum) filter (where quiet.is) as heat_kw, sum(t.heat_speed_sum) filter (where quiet.is) as speed
      from stretch_totals t
      join own on own.key = t.vehicle
      cross join lateral (
        select sum(bin) as n, sum(bin) filter (where place > ${how.firstHotBin}) as hot
        from unnest(t.fluid_bins) with ordinality as b(bin, place)) bins
      left join levels l on l.vehicle = t.vehicle and l.life = t.life
      left join stretches s
        on s.vehicle = t.vehicle and s.life = t.life and s.band = -1 and s.stretch = t.stretch
      cross join lateral (select s.slip_rpm <= l.low + ${how.quietShare} * (own.limit_rpm - l.low) as is) quiet
      group by t.vehicle, t.life
    )
    select b.vehicle, b.life, b.n as readings, b.fluid_c::float8 as "fluidC", t.hot as "hotShare",
      b.load_pct::float8 as "loadPct", b.partial as "partialLockupShare", t.heat_kw::float8 as "heatKw",
      t.speed::float8 as "speedKmh"
    from bands b left join totals t on t.vehicle = b.vehicle and t.life = b.life`;
}
