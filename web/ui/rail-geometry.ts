import type { Distance } from '#server/contract/ranking.ts';
import { kmFromMiles } from '#server/contract/units.ts';
import type { Grade } from '#server/contract/words.ts';
import { toReaderDistance } from '#web/format/format-km.ts';
import type { Units } from '#web/format/units.ts';

/** Positions run from 0, the limit, to 1, the end of the scale. */
export type RailShape =
  | { kind: 'unknown' }
  | { kind: 'empty' }
  | { kind: 'passed' }
  | { kind: 'beyond'; km: number }
  | { kind: 'interval'; from: number; to: number; notch: number | null; open: boolean };

const roundEnds = [1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10];
/** Distance within which a booking must be, as the server grades. */
export const usualHorizonKm = 5000;
const horizonsOnScale = 3;

/** One scale for a whole view: it follows from the horizon alone, so that it stays while rows are loaded. */
export function scaleForHorizon(horizonKm: number, units: Units): number {
  const wanted = toReaderDistance(horizonKm * horizonsOnScale, units);
  const size = 10 ** Math.floor(Math.log10(wanted));
  const end = (roundEnds.find((step) => step * size >= wanted * 0.999) ?? 10) * size;
  return units.distance === 'mi' ? kmFromMiles(end) : end;
}

export function shapeRail(distance: Distance, grade: Grade, scaleKm: number): RailShape {
  const { p10, p50, p90 } = distance;
  const nearest = p10 ?? p50 ?? p90;
  if (nearest === null) return { kind: grade === 'unknown' ? 'unknown' : 'empty' };
  // More likely than not it is past the limit, however far the rest of the interval reaches.
  if (p50 === 0 || p90 === 0) return { kind: 'passed' };
  if (nearest >= scaleKm) return { kind: 'beyond', km: p50 ?? nearest };
  const open = p90 === null || p90 > scaleKm;
  return {
    kind: 'interval',
    from: Math.max(0, nearest / scaleKm),
    to: open ? 1 : p90 / scaleKm,
    notch: p50 === null || p50 > scaleKm ? null : p50 / scaleKm,
    open,
  };
}
