import { sql } from 'drizzle-orm';
import { type Database, rawClient } from '#db/client.ts';

/** How life weeks are made. Who changes one of these other than the limit and the band empties the table by a migration. */
export interface WeeksMade {
  firstHotBin: number;
  quietShare: number;
  /** for vehicles without a platform */
  limitRpm: number;
  topBand: number;
}

/** Sums of a life's quiet stretches of one week, in the order in which they are stored. */
export type LifeWeek = readonly [
  life: number,
  /** weeks since 1970, seven days each; a stretch stands in the one in which it ended */
  week: number,
  /** usable readings, and those below the top command band */
  n: number,
  partial: number,
  /** readings with a fluid temperature or a load, and sums over them, degC and % */
  fluidN: number,
  fluid: number,
  loadN: number,
  load: number,
  /** readings in the bins of fluid temperature, and in the hot ones */
  binN: number,
  hot: number,
  /** sums over readings, kW and km/h */
  heatKw: number,
  speedKmh: number,
];

/**
 * Makes the life weeks of vehicles from their quiet stretches: those whose slip at the reference point lies within `quietShare`
 * of the way from the life's own low level, the lower quartile of its stretches, to the limit. A clutch that slips heats
 * itself and its fluid, and its controller commands more: that follows from the failure and does not tell of it.
 *
 * Version and stretches are of one snapshot, and nothing is stored over a version that is newer.
 */
export async function makeLifeWeeks(
  db: Database,
  vehicles: readonly number[],
  how: WeeksMade,
): Promise<void> {
  const keys = vehicles as number[];
  // Of its own intermediate results the database expects few rows: it would join those of some thousand vehicles row by
  // row, for minutes.
  await db.transaction(async (transaction) => {
    await transaction.execute(sql`set local enable_nestloop = off`);
    await rawClient(transaction)`
      with own as materialized (
        select v.key, coalesce(w.version, 0) as version, coalesce(p.limit_rpm, ${how.limitRpm}) as limit_rpm,
          coalesce(array_length(p.band_edges_pct, 1) - 2, ${how.topBand}) as top
        from vehicles v left join platforms p on p.id = v.platform left join life_weeks w on w.vehicle = v.key
          and w.vehicle = any(${keys}::integer[])
        where v.key = any(${keys}::integer[])
      ), parts as materialized (
        select s.vehicle, s.life, s.stretch, max(s.slip_rpm) filter (where s.band = -1) as slip,
          floor(extract(epoch from max(s.last_at)) / 604800)::integer as week,
          sum(s.n) filter (where s.band >= 0) as n,
          sum(s.n) filter (where s.band >= 0 and s.band < own.top) as partial,
          sum(s.n) filter (where s.band >= 0 and s.fluid_c is not null) as fluid_n,
          sum(s.n * s.fluid_c) filter (where s.band >= 0) as fluid,
          sum(s.n) filter (where s.band >= 0 and s.load_pct is not null) as load_n,
          sum(s.n * s.load_pct) filter (where s.band >= 0) as load
        from stretches s join own on own.key = s.vehicle
        where s.vehicle = any(${keys}::integer[])
        group by s.vehicle, s.life, s.stretch
      ), levels as materialized (
        select vehicle, life, percentile_cont(0.25) within group (order by slip) as low
        from parts where slip is not null group by vehicle, life
      ), weekly as materialized (
        select q.vehicle, q.life, q.week, sum(q.n) as n, sum(q.partial) as partial, sum(q.fluid_n) as fluid_n,
          sum(q.fluid) as fluid, sum(q.load_n) as load_n, sum(q.load) as load,
          sum((select sum(bin) from unnest(t.fluid_bins) as bin)) as bin_n,
          sum((select sum(bin) from unnest(t.fluid_bins[${how.firstHotBin + 1}:]) as bin)) as hot,
          sum(t.heat_kw_sum) as heat_kw, sum(t.heat_speed_sum) as speed
        from parts q
        join levels l on l.vehicle = q.vehicle and l.life = q.life
        join own on own.key = q.vehicle
        left join stretch_totals t on t.vehicle = q.vehicle and t.life = q.life and t.stretch = q.stretch
          and t.vehicle = any(${keys}::integer[])
        where q.slip <= l.low + ${how.quietShare} * (own.limit_rpm - l.low)
        group by q.vehicle, q.life, q.week
      ), rows as (
        select vehicle, json_agg(json_build_array(life, week, coalesce(n, 0), coalesce(partial, 0),
          coalesce(fluid_n, 0), round(coalesce(fluid, 0)::numeric, 2), coalesce(load_n, 0),
          round(coalesce(load, 0)::numeric, 2), coalesce(bin_n, 0), coalesce(hot, 0),
          round(coalesce(heat_kw, 0)::numeric, 4), round(coalesce(speed, 0)::numeric, 2)) order by life, week) as weeks
        from weekly group by vehicle
      )
      insert into life_weeks as stored (vehicle, version, limit_rpm, top_band, weeks)
      select own.key, own.version, own.limit_rpm, own.top, coalesce(rows.weeks, '[]')
      from own left join rows on rows.vehicle = own.key order by own.key
      on conflict (vehicle) do update set
        limit_rpm = excluded.limit_rpm, top_band = excluded.top_band, weeks = excluded.weeks
      where stored.version = excluded.version`;
  });
}
