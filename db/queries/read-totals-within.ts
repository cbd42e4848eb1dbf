import { type Database, rawClient } from '#db/client.ts';
import type { RebuildWindow } from './find-rebuild-windows.ts';

/** What is stored of a stretch, as far as it matters to whoever builds it again. */
export interface KnownTotal {
  vehicle: number;
  life: number;
  stretch: number;
  firstAtMs: number;
  lastAtMs: number;
  /** readings that it was built from */
  readings: number;
  digest: string | null;
}

/** The stretches of vehicles that overlap their spans of time. */
export function readTotalsWithin(db: Database, windows: readonly RebuildWindow[]): Promise<KnownTotal[]> {
  return rawClient(db)<KnownTotal[]>`
    select t.vehicle, t.life, t.stretch, (extract(epoch from t.first_at) * 1000)::float8 as "firstAtMs",
      (extract(epoch from t.last_at) * 1000)::float8 as "lastAtMs", t.digest,
      t.usable + coalesce((select sum(reason.value::integer)
        from jsonb_each(t.set_aside) month, jsonb_each_text(month.value) reason), 0)::integer as readings
    from jsonb_to_recordset(${JSON.stringify(windows)}::text::jsonb)
      as j(vehicle integer, "fromAt" timestamptz, "toAt" timestamptz)
    join stretch_totals t on t.vehicle = j.vehicle and t.first_at <= j."toAt" and t.last_at >= j."fromAt"
    order by t.vehicle, t.life, t.stretch`;
}
