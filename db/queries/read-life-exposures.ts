import { sql } from 'drizzle-orm';
import { type Database, rawClient } from '#db/client.ts';

/** How one converter was used while its slip was quiet; null where nothing tells. */
export interface LifeExposures {
  vehicle: number;
  life: number;
  /** means over usable readings, and shares of them in % */
  fluidC: number | null;
  hotPct: number | null;
  loadPct: number | null;
  /** of readings below the top command band */
  partialLockupPct: number | null;
  /** sums over readings, kW and km/h */
  heatKw: number | null;
  speedKmh: number | null;
}

/**
 * Exposures of the lives of some vehicles, from their quiet stretches: those whose slip at the reference point lies within
 * `quietShare` of the way from the life's own low level, the lower quartile of its stretches, to the limit. A clutch that
 * slips heats itself and its fluid, and its controller commands more: that follows from the failure and does not tell of it.
 */
export async function readLifeExposures(
  db: Database,
  vehicles: readonly number[],
  how: { firstHotBin: number; quietShare: number; limitRpm: number; topBand: number },
): Promise<LifeExposures[]> {
  const keys = vehicles as number[];
  // Of its own intermediate results the database expects few rows: it would join those of some thousand vehicles row by
  // row, for minutes.
  return db.transaction(async (transaction) => {
    await transaction.execute(sql`set local enable_nestloop = off`);
    return rawClient(transaction)<LifeExposures[]>`
      with own as materialized (
        select key, coalesce(p.limit_rpm, ${how.limitRpm}) as limit_rpm,
          coalesce(array_length(p.band_edges_pct, 1) - 2, ${how.topBand}) as top
        from vehicles v left join platforms p on p.id = v.platform where v.key = any(${keys}::integer[])
      ), levels as materialized (
        select vehicle, life, percentile_cont(0.25) within group (order by slip_rpm) as low
        from stretches where band = -1 and vehicle = any(${keys}::integer[]) group by vehicle, life
      ), quiet as materialized (
        select s.vehicle, s.life, s.stretch, own.top
        from stretches s
        join own on own.key = s.vehicle
        join levels l on l.vehicle = s.vehicle and l.life = s.life
        where s.band = -1 and s.vehicle = any(${keys}::integer[])
          and s.slip_rpm <= l.low + ${how.quietShare} * (own.limit_rpm - l.low)
      ), bands as (
        select s.vehicle, s.life,
          sum(s.n * s.fluid_c) / nullif(sum(s.n) filter (where s.fluid_c is not null), 0) as fluid,
          sum(s.n * s.load_pct) / nullif(sum(s.n) filter (where s.load_pct is not null), 0) as load,
          100.0 * coalesce(sum(s.n) filter (where s.band < q.top), 0) / nullif(sum(s.n), 0) as partial
        from stretches s
        join quiet q on q.vehicle = s.vehicle and q.life = s.life and q.stretch = s.stretch
        where s.band >= 0 and s.vehicle = any(${keys}::integer[])
        group by s.vehicle, s.life
      ), totals as (
        select t.vehicle, t.life, 100.0 * coalesce(sum(bins.hot), 0) / nullif(sum(bins.n), 0) as hot,
          sum(t.heat_kw_sum) as heat_kw, sum(t.heat_speed_sum) as speed
        from stretch_totals t
        join quiet q on q.vehicle = t.vehicle and q.life = t.life and q.stretch = t.stretch
        cross join lateral (
          select sum(bin) as n, sum(bin) filter (where place > ${how.firstHotBin}) as hot
          from unnest(t.fluid_bins) with ordinality as b(bin, place)) bins
        where t.vehicle = any(${keys}::integer[])
        group by t.vehicle, t.life
      )
      select b.vehicle, b.life, b.fluid::float8 as "fluidC", t.hot::float8 as "hotPct", b.load::float8 as "loadPct",
        b.partial::float8 as "partialLockupPct", t.heat_kw::float8 as "heatKw", t.speed::float8 as "speedKmh"
      from bands b left join totals t on t.vehicle = b.vehicle and t.life = b.life`;
  });
}
