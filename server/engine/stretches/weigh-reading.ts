/** Where slip is compared. */
export interface ReferencePoint {
  dutyPct: number;
  loadPct: number;
  fluidC: number;
}

/** Bandwidths of the kernel: distance at which the weight has fallen to 0.61 of its height. */
export const LOAD_WIDTH_PCT = 15;
export const FLUID_WIDTH_C = 12;
const DUTY_WIDTH_PCT = 6;
/** What a reading far from the reference point still counts, so that a stretch never stands empty. */
const FLOOR = 0.002;

/**
 * Weight of a reading by its distance from the reference point.
 *
 * w = floor + (1 - floor) * exp(-(u_load^2 + u_fluid^2 + u_duty^2) / 2), u = difference / bandwidth. A Gaussian
 * product kernel with the bandwidths 15 % load, 12 degC and 6 % duty of our own choice. Load and temperature count only
 * where known, duty only where asked.
 *
 * @param reading   duty and load in %, fluid in degC
 * @param reference the point
 * @param withDuty  true for the series at the reference point, false within one command band
 * @returns weight in (0, 1]
 * Source: local regression, Cleveland (1979), J. Amer. Statist. Assoc. 74, 829-836 (from memory). Edges: far from the
 * point the floor of 0.002 is left. Errors: none.
 * @example weighReading({ dutyPct: 85, loadPct: 50, fluidC: 85 }, { dutyPct: 85, loadPct: 50, fluidC: 85 }, true) // 1
 */
export function weighReading(
  reading: { dutyPct: number; loadPct: number | null; fluidC: number | null },
  reference: ReferencePoint,
  withDuty: boolean,
): number {
  const load = reading.loadPct === null ? 0 : (reading.loadPct - reference.loadPct) / LOAD_WIDTH_PCT;
  const fluid = reading.fluidC === null ? 0 : (reading.fluidC - reference.fluidC) / FLUID_WIDTH_C;
  const duty = withDuty ? (reading.dutyPct - reference.dutyPct) / DUTY_WIDTH_PCT : 0;
  return FLOOR + (1 - FLOOR) * Math.exp(-0.5 * (load * load + fluid * fluid + duty * duty));
}
