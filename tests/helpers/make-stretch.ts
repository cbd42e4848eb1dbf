import type { SeriesPoint } from '#server/engine/assessment/build-series.ts';
import type { StretchRow } from '#server/engine/stretches/stretch-row.ts';
import { momentNames } from '#server/engine/stretches/summarise-stretch.ts';

const START_MS = Date.UTC(2025, 0, 6);
const DAY_MS = 86_400_000;
/** A day and a half for 500 km, and no spread of the conditions. */
const MS_PER_KM = (1.5 * DAY_MS) / 500;

/**
 * A stretch of 500 km at the reference point, the number of stretches after 100,000 km being `i`. Its slips spread by
 * scaleRpm and nothing explains them, as the moments say unless others are given.
 */
export function makeStretch(i: number, slipRpm: number, changes: Partial<StretchRow> = {}): StretchRow {
  const firstAtMs = START_MS + i * 500 * MS_PER_KM;
  const row: Omit<StretchRow, 'moments'> = {
    life: 1,
    band: -1,
    firstAtMs,
    lastAtMs: firstAtMs + DAY_MS,
    n: 8,
    weight: 4,
    effective: 6,
    odometerKm: 100_250 + 500 * i,
    slipRpm,
    scaleRpm: 4,
    dutyPct: 85,
    fluidC: 85,
    loadPct: 50,
    ...changes,
  };
  return { moments: momentNames.map((name) => (name === 'ss' ? row.weight * row.scaleRpm ** 2 : 0)), ...row };
}

/** The same as a point of the series, with a standard error of 2 rpm. */
export function makePoint(i: number, slipRpm: number, changes: Partial<SeriesPoint> = {}): SeriesPoint {
  const stretch = makeStretch(i, slipRpm);
  return {
    life: 1,
    km: stretch.odometerKm,
    atMs: (stretch.firstAtMs + stretch.lastAtMs) / 2,
    slipRpm,
    movementRpm: 0,
    measuredRpm: slipRpm,
    seRpm: 2,
    weight: stretch.effective,
    dutyPct: 85,
    fluidC: 85,
    loadPct: 50,
    ...changes,
  };
}
