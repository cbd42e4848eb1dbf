import type { ReferencePoint } from '#server/engine/stretches/weigh-reading.ts';
import type { ConditionEffects } from './fit-condition-effects.ts';

/** Most by which the worn part is carried: a factor of 3. */
const MOST_STEEP = 1.1;

/**
 * Slip of a stretch carried from its mean conditions to the reference point.
 *
 * slip_ref = slip + H + risen * (exp(W / 100) - 1), H = sum of healthy * (reference - mean) over load, fluid and
 * duty, W the same sum of worn, risen = max(0, slip - usual). The effects of wear are in proportion to the rise under
 * the conditions driven in, d risen / d condition = worn * risen / 100, of which the exponential is the solution: a
 * clutch comes out at the same rise whether it was driven with high load or low.
 *
 * @param stretch   robust mean slip, rpm, and mean conditions, load and duty in %, fluid in degC; load and fluid null
 * where not known
 * @param effects   of the vehicle, rpm per % or degC, worn for each 100 rpm of rise
 * @param usualRpm  usual slip of a stretch on the platform, rpm
 * @param reference the point
 * @param withDuty  true for the series at the reference point, false within a command band
 * @returns slip at the reference point, rpm
 * Source: linear remainder of a local regression (Cleveland 1979); the exponential is the solution of a linear
 * differential equation of first order, any textbook. Edges: what is not known counts as the reference; W / 100 is held between
 * -1.1 and 1.1, so that the rise is carried by a factor of 3 at the most; slip below the usual one has no rise.
 * Errors: none.
 * @example correctToReference(stretchAtReference, effects, 15, reference, true) // its own slip
 */
export function correctToReference(
  stretch: { slipRpm: number; loadPct: number | null; fluidC: number | null; dutyPct: number },
  effects: ConditionEffects,
  usualRpm: number,
  reference: ReferencePoint,
  withDuty: boolean,
): number {
  const load = stretch.loadPct === null ? 0 : reference.loadPct - stretch.loadPct;
  const fluid = stretch.fluidC === null ? 0 : reference.fluidC - stretch.fluidC;
  const duty = withDuty ? reference.dutyPct - stretch.dutyPct : 0;
  const { healthy, worn } = effects;
  const even = healthy[0] * load + healthy[1] * fluid + healthy[2] * duty;
  const steep = (worn[0] * load + worn[1] * fluid + worn[2] * duty) / 100;
  const risen = Math.max(0, stretch.slipRpm - usualRpm);
  return stretch.slipRpm + even + risen * (Math.exp(Math.max(-MOST_STEEP, Math.min(MOST_STEEP, steep))) - 1);
}
