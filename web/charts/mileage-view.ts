import type { RankingRow } from '#server/contract/ranking.ts';
import type { BandSeries, SeriesFit, VehicleSeries } from '#server/contract/vehicle.ts';
import type { Grade } from '#server/contract/words.ts';

/** What the chart takes of an assessment. */
export type Assessed = Pick<RankingRow, 'grade' | 'limit_rpm' | 'platform'>;

export interface KmRange {
  fromKm: number;
  toKm: number;
}

/** What the mileage chart shows: the series of one vehicle, and what the reader chose of it. */
export interface MileageView {
  series: VehicleSeries;
  /** The series in the large plot: at the reference point, or the chosen command band. */
  shown: BandSeries;
  isReference: boolean;
  /** The command bands, low command first: one strip each. */
  strips: readonly BandSeries[];
  /** The life that the reader chose; the others are then lighter. */
  chosenLife: number | null;
  lastLife: number | null;
  nowKm: number;
  whole: KmRange;
  /** What is shown before the reader chooses: the rise and what is to come get near half of the width. */
  first: KmRange;
  lowRpm: number;
  topRpm: number;
  stripTopRpm: number;
  grade: Grade;
  hasOwnLimit: boolean;
}

const referenceBand = 'reference';
/** The limit never lies on the upper edge. */
const roomAboveLimit = 1.18;
const leastStripTopRpm = 40;
const nearlyAllShare = 0.975;

/** Null where no stretch was ever summarised: then there is nothing to draw. */
export function viewMileage(
  series: VehicleSeries,
  assessment: Pick<RankingRow, 'grade' | 'limit_rpm' | 'platform'> | null,
  chosen: { band: string | null; life: number | null },
): MileageView | null {
  const reference = series.series.find((one) => one.band === referenceBand);
  const shown = series.series.find((one) => one.band === chosen.band) ?? reference ?? series.series[0];
  const every = series.series.flatMap((one) => one.points);
  if (shown === undefined || every.length === 0) return null;
  const strips = series.series
    .filter((one) => one.band !== referenceBand)
    .toSorted((a, b) => (a.duty_from_pct ?? 0) - (b.duty_from_pct ?? 0));
  const isReference = shown.band === referenceBand;
  const slips = shown.points.map((point) => point.slip_rpm);
  const lives = every.map((point) => point.life);
  const nowKm = Math.max(series.odometer_km ?? 0, ...every.map((point) => point.odometer_km));
  const whole = findWhole(series, nowKm);
  const lastLife = Math.max(...lives);
  const onset = shown.fits.find((fit) => fit.life === (chosen.life ?? lastLife))?.onset_km ?? null;
  return {
    series,
    shown,
    isReference,
    strips,
    chosenLife: chosen.life,
    lastLife,
    nowKm,
    whole,
    first: onset === null ? whole : showRise(whole, onset.estimate),
    lowRpm: Math.min(0, Math.floor(Math.min(...slips, 0) / 5) * 5),
    topRpm: findTop(series, slips, isReference),
    stripTopRpm: findStripTop(strips),
    grade: assessment?.grade ?? 'unknown',
    hasOwnLimit: assessment === null ? false : assessment.limit_rpm !== null && assessment.platform !== null,
  };
}

/** All that was seen, and ahead as far as the forecast is worth the room. */
function findWhole(series: VehicleSeries, nowKm: number): KmRange {
  const seen = [
    ...series.series.flatMap((one) => one.points.map((point) => point.odometer_km)),
    ...series.set_aside.map((one) => one.odometer_km),
  ];
  const firstKm = Math.min(...seen, nowKm);
  const seenKm = Math.max(nowKm - firstKm, 1000);
  const { p50, p90 } = series.forecast?.km_to_limit ?? { p50: null, p90: null };
  const reachKm = p90 ?? (p50 === null ? 0 : p50 * 1.6);
  const wantedKm = series.forecast === null ? 0 : Math.max(series.horizon_km * 1.12, reachKm * 1.12);
  const forecastKm = (series.forecast?.points.at(-1)?.odometer_km ?? nowKm) - nowKm;
  const aheadKm =
    forecastKm > 0
      ? Math.min(Math.max(Math.min(wantedKm, seenKm * 0.6), seenKm * 0.03), forecastKm)
      : seenKm * 0.03;
  return { fromKm: Math.max(0, firstKm - seenKm * 0.015), toKm: nowKm + aheadKm };
}

/** Room for nearly all stretches and every fit; the few above are drawn at the top edge as triangles. */
function findStripTop(strips: readonly BandSeries[]): number {
  const slips = strips.flatMap((strip) => strip.points.map((point) => point.slip_rpm)).sort((a, b) => a - b);
  const nearlyAll = slips[Math.floor((slips.length - 1) * nearlyAllShare)] ?? 0;
  const fits = strips.flatMap((strip) => strip.fits.flatMap((fit) => fit.line.map(([, slip]) => slip)));
  return Math.max(leastStripTopRpm, nearlyAll * 1.06, ...fits.map((slip) => slip * 1.06));
}

/** Room for the limit, for what was seen, and for a forecast that begins above the limit. */
function findTop(series: VehicleSeries, slips: readonly number[], isReference: boolean): number {
  const highest = Math.max(0, ...slips);
  if (!isReference) return Math.max(30, highest * 1.08);
  const ahead = series.forecast?.points.at(-1)?.p50 ?? 0;
  const isPast = series.forecast?.km_to_limit.p50 === 0;
  return Math.max(
    30,
    series.limit_rpm * roomAboveLimit,
    highest * 1.08,
    isPast ? Math.min(ahead, highest * 1.4) : 0,
  );
}

const shareOfRise = 0.45;

function showRise(whole: KmRange, onsetKm: number): KmRange {
  const fromKm = whole.toKm - (whole.toKm - onsetKm) / shareOfRise;
  return fromKm <= whole.fromKm || onsetKm <= whole.fromKm ? whole : { fromKm, toKm: whole.toKm };
}

/** The fit of the life that the reader looks at: the chosen one, else the one on the road. */
export const currentFit = (view: MileageView): SeriesFit | undefined =>
  view.shown.fits.find((fit) => fit.life === (view.chosenLife ?? view.lastLife));

/** Ends of a life on the axis; open ends are those of the whole view. */
export function rangeOfLife(view: MileageView, number: number): KmRange {
  const life = view.series.lives.find((one) => one.life === number);
  const fromKm = Math.max(life?.fitted_km ?? 0, view.whole.fromKm);
  const toKm = Math.min(life?.removed_km ?? view.whole.toKm, view.whole.toKm);
  return toKm > fromKm ? { fromKm, toKm } : view.whole;
}
