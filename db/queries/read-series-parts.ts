import { type Database, rawClient } from '#db/client.ts';
import { type FoundContext, platformContext } from './find-platform-context.ts';
import { type ExposureRow, exposureRows, type StretchExposure, toExposures } from './read-exposure.ts';
import { type StretchColumns, stretchColumns, toStretches } from './read-own-stretches.ts';
import type { StretchRecord } from './stored-stretches.ts';

/** Fit and forecast of one vehicle, as its own screen shows them. */
export interface ShownAssessment {
  life: number;
  onsetKm: number | null;
  kmP10: number | null;
  kmP50: number | null;
  kmP90: number | null;
  drift: number | null;
  driftLow: number | null;
  driftHigh: number | null;
  missing: unknown;
  detail: unknown;
}

export interface SeriesParts {
  stretches: StretchRecord[];
  totals: StretchExposure[];
  /** null before the first assessment */
  assessment: ShownAssessment | null;
  /** without the context where that is of the known version; null where nothing was learned */
  learned: FoundContext | null;
  /** steps of the common movement of the platform, in order */
  events: { at: Date; sizeRpm: number }[];
}

type Optional<T> = T | { [name in keyof T]: null };

type Row = StretchColumns &
  Optional<ShownAssessment> &
  Optional<FoundContext> & {
    totals: ExposureRow[] | null;
    events: [at: string, sizeRpm: number][] | null;
  };

/** All that the series of one vehicle are made of, in one statement: each costs both ends more than most of them bring. */
export async function readSeriesParts(
  db: Database,
  vehicle: number,
  platform: string,
  knownVersion: string,
): Promise<SeriesParts> {
  const client = rawClient(db);
  const [row] = await client<Row[]>`
    select stretch.*, total.rows as totals, shown.*, learned.*, moved.events
    from (${stretchColumns(client, client`vehicle = ${vehicle}`)}) stretch
      cross join (${exposureRows(client, vehicle)}) total
      cross join (select json_agg(json_build_array(at, size_rpm) order by at) as events
        from fleet_events where platform = ${platform}) moved
      left join (select life, onset_km as "onsetKm", km_p10 as "kmP10", km_p50 as "kmP50", km_p90 as "kmP90",
          drift_rpm_per_km as drift, drift_low as "driftLow", drift_high as "driftHigh",
          brief -> 'missing' as missing, detail
        from assessments where vehicle = ${vehicle}) shown on true
      left join (${platformContext(client, platform, knownVersion)}) learned on true`;
  if (row === undefined) throw new Error('a statement without a condition of its own has brought no row');
  return {
    stretches: toStretches(row),
    totals: toExposures(row.totals),
    assessment: row.life === null ? null : row,
    learned: row.version === null ? null : row,
    events: (row.events ?? []).map(([at, sizeRpm]) => ({ at: new Date(at), sizeRpm })),
  };
}
