import { hash } from 'node:crypto';
import { type Database, rawClient } from '#db/client.ts';
import { copyRows } from './copy-rows.ts';
import type { StretchKey } from './find-sealed-stretches.ts';
import type { StretchRecord } from './stored-stretches.ts';
import { toCopyText } from './to-copy-text.ts';

export interface StoredStretch extends Omit<StretchRecord, 'vehicle' | 'moments'> {
  stretch: number;
  moments: readonly number[];
}

export interface StoredTotal {
  life: number;
  stretch: number;
  firstAtMs: number;
  lastAtMs: number;
  usable: number;
  setAside: unknown;
  fluidBins: readonly number[];
  loadBins: readonly number[] | null;
  heatKwSum: number;
  heatN: number;
  heatSpeedSum: number;
  codes: unknown;
}

/** A stretch of a vehicle as it is written: a line of its total, and one of each band. */
export interface WrittenStretch extends StretchKey {
  vehicle: number;
  total: string;
  bands: string;
  digest: string;
}

/** As many as a platform can have, and that of the reference point: named one by one, they are found by the key. */
const BANDS = Array.from({ length: 12 }, (_, i) => i - 1);

const at = (ms: number) => new Date(ms).toISOString();
const list = (values: readonly number[]) => `{${values.join(',')}}`;

export function writeStretch(
  vehicle: number,
  total: StoredTotal,
  rows: readonly StoredStretch[],
): WrittenStretch {
  const bands = rows.map((row) => `${vehicle}\t${bandLine(row)}\n`).join('');
  const line = `${vehicle}\t${totalLine(total)}`;
  const digest = hash('sha1', line + bands, 'base64').slice(0, 16);
  return { vehicle, life: total.life, stretch: total.stretch, total: `${line}\t${digest}\n`, bands, digest };
}

const bandLine = (row: StoredStretch): string =>
  [
    row.life,
    row.band,
    row.stretch,
    at(row.firstAtMs),
    at(row.lastAtMs),
    row.n,
    row.weight,
    row.effective,
    row.odometerKm,
    row.slipRpm,
    row.scaleRpm,
    row.dutyPct,
    row.fluidC ?? '\\N',
    row.loadPct ?? '\\N',
    list(row.moments),
  ].join('\t');

const totalLine = (total: StoredTotal): string =>
  [
    total.life,
    total.stretch,
    at(total.firstAtMs),
    at(total.lastAtMs),
    total.usable,
    toCopyText(JSON.stringify(total.setAside)),
    list(total.fluidBins),
    total.loadBins === null ? '\\N' : list(total.loadBins),
    total.heatKwSum,
    total.heatN,
    total.heatSpeedSum,
    toCopyText(JSON.stringify(total.codes)),
  ].join('\t');

/** Takes stretches away and writes others, of several vehicles, in the caller's transaction. */
export async function replaceStretches(
  transaction: Database,
  gone: readonly (StretchKey & { vehicle: number })[],
  written: readonly WrittenStretch[],
): Promise<void> {
  const client = rawClient(transaction);
  if (gone.length > 0)
    await client`
      with gone as (
        delete from stretch_totals t
        using unnest(${gone.map(({ vehicle }) => vehicle)}::integer[], ${gone.map(({ life }) => life)}::smallint[],
          ${gone.map(({ stretch }) => stretch)}::integer[]) as g(vehicle, life, stretch)
        where t.vehicle = g.vehicle and t.life = g.life and t.stretch = g.stretch
        returning t.vehicle, t.life, t.stretch
      )
      delete from stretches s using gone
      where s.vehicle = gone.vehicle and s.life = gone.life and s.band = any(${BANDS}::smallint[])
        and s.stretch = gone.stretch`;
  if (written.length === 0) return;
  await copyRows(
    client,
    'stretches (vehicle, life, band, stretch, first_at, last_at, n, weight, effective, odometer_km, slip_rpm, scale_rpm, duty_pct, fluid_c, load_pct, moments) from stdin',
    written.map(({ bands }) => bands).join(''),
  );
  await copyRows(
    client,
    'stretch_totals (vehicle, life, stretch, first_at, last_at, usable, set_aside, fluid_bins, load_bins, heat_kw_sum, heat_n, heat_speed_sum, codes, digest) from stdin',
    written.map(({ total }) => total).join(''),
  );
}
