import { poolByPrecision } from '#server/engine/robust/pool-by-precision.ts';
import type { BandRise } from './assessment-model.ts';
import type { Series, SeriesPoint } from './build-series.ts';

/** The last kilometres stand for 'now', in every band alike, so many stretches from the start for 'healthy'. */
const LATE_KM = 3_000;
const EARLY_MOST = 30;

/**
 * Rise of each command band: inverse-variance mean of its stretches in the last 3,000 km of all bands against those
 * before onset.
 *
 * @param bands   series of the command bands of one life
 * @param onsetKm where the rise began, km; null takes the first third of the life as healthy
 * @param fromKm  first km that counts
 * @returns rise and standard error, rpm, for each band with stretches on both sides
 * Source: pooled means by precision, any textbook. Edges: bands without an early or late part are left out.
 * Errors: none.
 * @example compareBands([], null, 0) // []
 */
export function compareBands(bands: readonly Series[], onsetKm: number | null, fromKm: number): BandRise[] {
  let lastKm = Number.NEGATIVE_INFINITY;
  for (const { points } of bands) for (const { km } of points) if (km > lastKm) lastKm = km;
  return bands.flatMap(({ band, points }) => {
    const own = points.filter((point) => point.km >= fromKm);
    const border = onsetKm ?? own[Math.floor(own.length / 3)]?.km ?? 0;
    const early = own.filter((point) => point.km < border).slice(0, EARLY_MOST);
    const late = own.filter((point) => point.km >= Math.max(border, lastKm - LATE_KM));
    if (early.length < 2 || late.length < 2) return [];
    const before = pool(early);
    const now = pool(late);
    return [{ band, riseRpm: now.mean - before.mean, seRpm: Math.hypot(now.se, before.se) }];
  });
}

const pool = (points: readonly SeriesPoint[]) =>
  poolByPrecision(
    points.map((point) => point.slipRpm),
    points.map((point) => point.seRpm),
  );
