import { type Database, rawClient } from '#db/client.ts';

export interface RebuildWindow {
  fromAt: Date;
  toAt: Date;
}

/**
 * The span of time that holds every reading of the stretches that readings between two moments can belong to: the
 * stretches that overlap it, and one more on either side. Stays within the vehicle.
 */
export async function findRebuildWindow(
  db: Database,
  vehicle: number,
  fromAt: Date,
  toAt: Date,
): Promise<RebuildWindow> {
  const [row] = await rawClient(db)<{ fromAt: Date; toAt: Date }[]>`
    with around as (
      (select first_at, last_at from stretch_totals
        where vehicle = ${vehicle} and first_at <= ${fromAt} order by first_at desc limit 2)
      union all
      (select first_at, last_at from stretch_totals
        where vehicle = ${vehicle} and last_at >= ${toAt} order by last_at limit 2)
      union all
      (select first_at, last_at from stretch_totals
        where vehicle = ${vehicle} and first_at <= ${toAt} and last_at >= ${fromAt})
    )
    select least(min(first_at), ${fromAt}) as "fromAt", greatest(max(last_at), ${toAt}) as "toAt" from around`;
  return row ?? { fromAt, toAt };
}
