import type { ReferencePoint } from '#server/engine/stretches/weigh-reading.ts';
import type { ConditionEffects } from './fit-condition-effects.ts';

/**
 * Slip of a stretch carried from its mean conditions to the reference point.
 *
 * slip_ref = slip + sum over load, fluid, duty of (healthy + worn * u) * (reference - mean).
 *
 * @param stretch   robust mean slip, rpm, and mean conditions; load and fluid null where not known
 * @param effects   of the vehicle
 * @param rise      rise above the platform's usual level, in 100 rpm, from 0 to 3
 * @param reference the point
 * @param withDuty  true for the series at the reference point, false within a command band
 * @returns slip at the reference point, rpm
 * Source: linear remainder of a local regression (Cleveland 1979). Edges: what is not known counts as the
 * reference. Errors: none.
 * @example correctToReference(stretchAtReference, effects, 0, reference, true) // its own slip
 */
export function correctToReference(
  stretch: { slipRpm: number; loadPct: number | null; fluidC: number | null; dutyPct: number },
  effects: ConditionEffects,
  rise: number,
  reference: ReferencePoint,
  withDuty: boolean,
): number {
  const away = [
    stretch.loadPct === null ? 0 : reference.loadPct - stretch.loadPct,
    stretch.fluidC === null ? 0 : reference.fluidC - stretch.fluidC,
    withDuty ? reference.dutyPct - stretch.dutyPct : 0,
  ];
  const shift = away.reduce(
    (sum, difference, i) => sum + ((effects.healthy[i] ?? 0) + (effects.worn[i] ?? 0) * rise) * difference,
    0,
  );
  return stretch.slipRpm + shift;
}
