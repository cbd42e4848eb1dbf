import { readSeriesParts } from '#db/queries/read-series-parts.ts';
import type { PlacedVehicle } from '#db/queries/read-vehicle-record.ts';
import type { BandSeries, VehicleSeries } from '#server/contract/vehicle.ts';
import { buildBandSeries } from '#server/engine/assessment/build-band-series.ts';
import type { Series } from '#server/engine/assessment/build-series.ts';
import { REFERENCE_BAND } from '#server/engine/stretches/band-of.ts';
import { DEFAULT_HORIZON_KM } from '#server/services/assessment/horizon.ts';
import { NO_PLATFORM } from '#server/services/assessment/learn-platform.ts';
import type { StoredBrief, StoredDetail } from '#server/services/assessment/stored-assessment.ts';
import type { Context } from '#server/services/context.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { missingWords } from '#server/services/words/reason-words.ts';
import { compareByDuty } from './compare-by-duty.ts';
import { fitBand } from './fit-band.ts';
import { findKept, takeLearned } from './read-learned.ts';
import { listSetAside, sumExposure } from './sum-exposure.ts';
import { toLives } from './to-lives.ts';

type Record = Pick<PlacedVehicle, 'vehicle' | 'platform' | 'lives'>;

/** The series, whose points are still the engine's. */
type Described = Omit<VehicleSeries, 'series'> & {
  series: (Omit<BandSeries, 'points'> & Pick<Series, 'points'>)[];
};

/** The stretches of a vehicle that whoever asks is known to see, at the reference point and by band, with fit and forecast. */
export async function seriesOf(ctx: Context, record: Record): Promise<VehicleSeries> {
  const described = await describeSeries(ctx, record);
  const series = described.series.map((band) => ({ ...band, points: band.points.map(toPoint) }));
  return { ...described, series };
}

/** The same, in the order in which it is written. */
export async function describeSeries(ctx: Context, record: Record): Promise<Described> {
  const { vehicle, platform } = record;
  const settings = toEngineSettings(platform);
  const name = platform?.id ?? NO_PLATFORM;
  const known = findKept(ctx.db, name);
  const parts = await readSeriesParts(ctx.db, vehicle.key, name, known?.version ?? '');
  const { stretches, totals, events } = parts;
  const { context, usual } = takeLearned(ctx.db, name, known, parts.learned);
  const stored =
    parts.assessment === null
      ? null
      : {
          ...parts.assessment,
          missing: parts.assessment.missing as StoredBrief['missing'],
          detail: parts.assessment.detail as StoredDetail,
        };
  const bands = buildBandSeries(stretches, settings, context);
  const reference = bands[0].points;
  const detail = stored?.detail ?? null;
  const life = stored?.life ?? 1;
  const fromKm = detail?.fromKm ?? 0;
  const nowKm = reference.filter((point) => point.life === life).at(-1)?.km ?? null;
  const setAside = listSetAside(totals);
  return {
    vehicle: vehicle.unit,
    odometer_km: nowKm === null ? null : Math.round(nowKm),
    reference: {
      duty_pct: settings.reference.dutyPct,
      load_pct: settings.reference.loadPct,
      fluid_c: settings.reference.fluidC,
    },
    limit_rpm: settings.limitRpm,
    horizon_km: DEFAULT_HORIZON_KM,
    lives: toLives(record),
    series: bands.map((series) => ({
      ...nameBand(series, settings.bandEdgesPct),
      points: series.points,
      fits:
        series.band === REFERENCE_BAND ? referenceFit(life, stored, nowKm) : fitBand(series, life, fromKm),
    })),
    forecast:
      detail === null || detail.forecast.length === 0
        ? null
        : {
            points: detail.forecast.map(({ km, slipRpm }) => {
              const [p2_5 = 0, p10 = 0, p25 = 0, p50 = 0, p75 = 0, p90 = 0, p97_5 = 0] = slipRpm.map(tenth);
              return { odometer_km: Math.round(km), p2_5, p10, p25, p50, p75, p90, p97_5 };
            }),
            km_to_limit: { p10: whole(stored?.kmP10), p50: whole(stored?.kmP50), p90: whole(stored?.kmP90) },
            accelerating_weight: Math.min(1, detail.accelerating),
          },
    by_duty: compareByDuty(bands.slice(1), life, fromKm, stored?.onsetKm ?? null),
    exposure: {
      ...sumExposure(totals.filter((total) => total.life === life)),
      platform: platform === null ? null : usual,
    },
    set_aside: setAside,
    readings: {
      usable: totals.reduce((sum, total) => sum + total.usable, 0),
      set_aside: setAside.reduce((sum, one) => sum + one.n, 0),
    },
    fleet_events: events.map((event) => ({
      at: event.at.toISOString(),
      odometer_km: kmAt(reference, event.at.getTime()),
      size_rpm: tenth(event.sizeRpm),
    })),
    notes: (stored?.missing ?? []).map(missingWords),
  };
}

interface StoredFit {
  drift: number | null;
  driftLow: number | null;
  driftHigh: number | null;
  detail: StoredDetail;
}

function referenceFit(life: number, stored: StoredFit | null, nowKm: number | null): BandSeries['fits'] {
  const detail = stored?.detail;
  if (stored === null || detail === undefined || detail.baseline === null || detail.fromKm === null)
    return [];
  const { drift, driftLow, driftHigh } = stored;
  const perThousand = (value: number) => Math.round(value * 100_000) / 100;
  return [
    {
      life,
      from_km: Math.round(detail.fromKm),
      to_km: Math.round(nowKm ?? detail.fromKm),
      baseline_rpm: detail.baseline,
      onset_km: detail.onset,
      drift_rpm_per_1000km:
        drift === null
          ? null
          : {
              estimate: perThousand(drift),
              low: perThousand(driftLow ?? drift),
              high: perThousand(driftHigh ?? drift),
            },
      line: detail.fitLine.map(([km, slip]) => [Math.round(km), tenth(slip)]),
    },
  ];
}

function nameBand(series: Series, edges: readonly number[]) {
  if (series.band === REFERENCE_BAND) return { band: 'reference', duty_from_pct: null, duty_to_pct: null };
  const from = edges[series.band] ?? null;
  const to = edges[series.band + 1] ?? null;
  return { band: `${from}-${to}`, duty_from_pct: from, duty_to_pct: to };
}

function toPoint(point: Series['points'][number]): BandSeries['points'][number] {
  return {
    life: point.life,
    odometer_km: Math.round(point.km),
    at: new Date(point.atMs).toISOString(),
    slip_rpm: tenth(point.slipRpm),
    measured_rpm: tenth(point.measuredRpm),
    spread_rpm: tenth(point.seRpm),
    weight: tenth(point.weight),
    duty_pct: tenth(point.dutyPct),
    fluid_c: point.fluidC === null ? null : tenth(point.fluidC),
    load_pct: point.loadPct === null ? null : tenth(point.loadPct),
  };
}

/** Odometer at a moment, straight between stretches; null outside of what was seen. */
function kmAt(points: Series['points'], ms: number): number | null {
  const after = points.findIndex((point) => point.atMs >= ms);
  const [a, b] = [points[after - 1], points[after]];
  if (a === undefined || b === undefined) return null;
  return Math.round(a.km + ((b.km - a.km) * (ms - a.atMs)) / Math.max(1, b.atMs - a.atMs));
}

const tenth = (value: number) => Math.round(value * 10) / 10;
const whole = (value: number | null | undefined) => (value == null ? null : Math.round(value));
