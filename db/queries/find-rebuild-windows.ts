import { type Database, rawClient } from '#db/client.ts';

/** A vehicle and a span of time within which its stretches are built. */
export interface RebuildWindow {
  vehicle: number;
  fromAt: Date;
  toAt: Date;
}

/**
 * The spans of time that hold every reading of the stretches that readings between two moments can belong to: the
 * stretches that overlap it, and one more on either side. Each stays within its vehicle.
 */
export async function findRebuildWindows(
  db: Database,
  touched: readonly RebuildWindow[],
): Promise<RebuildWindow[]> {
  return rawClient(db)<RebuildWindow[]>`
    select j.vehicle, least(min(a.first_at), j."fromAt") as "fromAt", greatest(max(a.last_at), j."toAt") as "toAt"
    from jsonb_to_recordset(${JSON.stringify(touched)}::text::jsonb)
      as j(vehicle integer, "fromAt" timestamptz, "toAt" timestamptz)
    left join lateral (
      (select first_at, last_at from stretch_totals
        where vehicle = j.vehicle and first_at <= j."fromAt" order by first_at desc limit 2)
      union all
      (select first_at, last_at from stretch_totals
        where vehicle = j.vehicle and last_at >= j."toAt" order by last_at limit 2)
      union all
      (select first_at, last_at from stretch_totals
        where vehicle = j.vehicle and first_at <= j."toAt" and last_at >= j."fromAt")
    ) a on true
    group by j.vehicle, j."fromAt", j."toAt" order by j.vehicle`;
}
