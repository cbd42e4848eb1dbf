import { type Database, rawClient } from '#db/client.ts';
import type { LifeWeek, WeeksMade } from './make-life-weeks.ts';

export interface VehicleWeeks {
  vehicle: number;
  platform: string | null;
  /** null where they have to be made first: its stretches, or what they are made with, have changed */
  weeks: readonly LifeWeek[] | null;
}

/** How the converters of these vehicles were used week by week, as far as that stands. */
export function readLifeWeeks(
  db: Database,
  vehicles: readonly number[],
  { limitRpm, topBand }: Pick<WeeksMade, 'limitRpm' | 'topBand'>,
): Promise<VehicleWeeks[]> {
  return rawClient(db)<VehicleWeeks[]>`
    select v.key as vehicle, v.platform, case
      when w.limit_rpm = coalesce(p.limit_rpm, ${limitRpm})
        and w.top_band = coalesce(array_length(p.band_edges_pct, 1) - 2, ${topBand}) then w.weeks end as weeks
    from vehicles v left join platforms p on p.id = v.platform left join life_weeks w on w.vehicle = v.key
    where v.key = any(${vehicles as number[]}::integer[]) order by v.key`;
}

/** To be called in the transaction that changes stretches of these vehicles. */
export async function outdateLifeWeeks(transaction: Database, vehicles: readonly number[]): Promise<void> {
  if (vehicles.length === 0) return;
  await rawClient(transaction)`
    insert into life_weeks as w (vehicle, version)
    select key, 1 from unnest(${vehicles as number[]}::integer[]) as t(key) order by key
    on conflict (vehicle) do update set version = w.version + 1, weeks = null`;
}
