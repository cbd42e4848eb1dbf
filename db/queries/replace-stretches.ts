import { type Database, rawClient } from '#db/client.ts';
import { copyRows } from './copy-rows.ts';
import type { StretchKey } from './find-sealed-stretches.ts';
import type { StretchRecord } from './read-stretches.ts';
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

const at = (ms: number) => new Date(ms).toISOString();
const list = (values: readonly number[]) => `{${values.join(',')}}`;
const line = (fields: readonly (string | number)[]) => `${fields.join('\t')}\n`;

/**
 * Puts these stretches of one vehicle in the place of those that overlap the span of time, whole, but for the ones to
 * be spared. Runs in the caller's transaction.
 */
export async function replaceStretches(
  transaction: Database,
  vehicle: number,
  span: { fromAt: Date; toAt: Date },
  spared: readonly StretchKey[],
  rows: readonly StoredStretch[],
  totals: readonly StoredTotal[],
): Promise<void> {
  const client = rawClient(transaction);
  await client`
    with gone as (
      delete from stretch_totals
      where vehicle = ${vehicle} and first_at <= ${span.toAt} and last_at >= ${span.fromAt}
        and (life, stretch) not in (select life, stretch
          from jsonb_to_recordset(${JSON.stringify(spared)}::text::jsonb) as s(life integer, stretch integer))
      returning life, stretch
    )
    delete from stretches s using gone
    where s.vehicle = ${vehicle} and s.life = gone.life and s.stretch = gone.stretch`;
  await copyRows(
    client,
    'stretches (vehicle, life, band, stretch, first_at, last_at, n, weight, effective, odometer_km, slip_rpm, scale_rpm, duty_pct, fluid_c, load_pct, moments) from stdin',
    rows
      .map((row) =>
        line([
          vehicle,
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
        ]),
      )
      .join(''),
  );
  await copyRows(
    client,
    'stretch_totals (vehicle, life, stretch, first_at, last_at, usable, set_aside, fluid_bins, load_bins, heat_kw_sum, heat_n, heat_speed_sum, codes) from stdin',
    totals
      .map((total) =>
        line([
          vehicle,
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
        ]),
      )
      .join(''),
  );
}
