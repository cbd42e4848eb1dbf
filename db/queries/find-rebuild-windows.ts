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
  const rows = await rawClient(db)<RebuildWindow[]>`
    select t.vehicle,
      least(j."fromAt", min(t.first_at) filter (where t.first_at <= j."toAt" and t.last_at >= j."fromAt"),
        (array_agg(t.first_at order by t.first_at desc) filter (where t.first_at <= j."fromAt"))[2],
        max(t.first_at) filter (where t.first_at <= j."fromAt")) as "fromAt",
      greatest(j."toAt", max(t.last_at) filter (where t.first_at <= j."toAt" and t.last_at >= j."fromAt"),
        (array_agg(t.last_at order by t.last_at) filter (where t.last_at >= j."toAt"))[2],
        min(t.last_at) filter (where t.last_at >= j."toAt")) as "toAt"
    from jsonb_to_recordset(${JSON.stringify(touched)}::text::jsonb)
      as j(vehicle integer, "fromAt" timestamptz, "toAt" timestamptz)
    join stretch_totals t on t.vehicle = j.vehicle
    group by t.vehicle, j."fromAt", j."toAt"`;
  const found = new Map(rows.map((row) => [row.vehicle, row]));
  return touched.map((window) => found.get(window.vehicle) ?? window).sort((a, b) => a.vehicle - b.vehicle);
}
