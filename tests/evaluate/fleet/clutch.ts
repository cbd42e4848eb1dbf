/**
 * Torque converter clutch in units of the torque at the reference point: demand 1 is the engine's torque at reference
 * load, capacity 1 would just hold it. What the lining cannot hold goes through the fluid, at the price of slip.
 * The forms are the usual ones of friction clutches (capacity = friction x pressure x area, friction fading with
 * heat, leakage growing as fluid thins); the numbers are ours, no source.
 */
export interface ReferencePoint {
  dutyPct: number;
  loadPct: number;
  fluidC: number;
}

/** What wears: the lining's friction, the piston's seal, or the solenoid that makes the pressure. */
export type WearMode = 'lining' | 'seal' | 'solenoid';

/** One converter as it was built. */
export interface Converter {
  mode: WearMode;
  /** Reference slip when healthy. */
  healthyRpm: number;
  /** Capacity at the reference point when healthy. */
  capacity: number;
}

export interface Clutch {
  reference: ReferencePoint;
  /** A converter with this healthy reference slip; `margin` is around 1. */
  build(mode: WearMode, healthyRpm: number, margin: number): Converter;
  /** Share of the capacity that is lost where the reference slip is this. The inverse of `slip` at the reference. */
  lossAt(converter: Converter, referenceRpm: number): number;
  /** Noise-free slip in rpm. */
  slip(converter: Converter, loss: number, dutyPct: number, loadPct: number, fluidC: number): number;
  /** Largest reference slip for which `lossAt` has an answer. */
  largestRpm: number;
}

const SMALLEST_SHARE = 0.01;

/** Share of the healthy capacity that is left; at the reference point it is 1 - loss in every mode. */
export function shareLeft(
  mode: WearMode,
  loss: number,
  dutyPct: number,
  fluidC: number,
  at: ReferencePoint,
): number {
  const hotter = fluidC - at.fluidC;
  let left: number;
  if (mode === 'lining') {
    // A glazed lining fades sooner.
    left = (1 - loss) * Math.exp(-0.005 * loss * hotter);
  } else if (mode === 'seal') {
    // Leakage goes with the inverse of viscosity.
    left = 1 - loss * Math.exp(0.0075 * hotter);
  } else {
    // A weak solenoid lacks most where the command is low.
    left = 1 - loss * (1 + (at.dutyPct - dutyPct) / 55);
  }
  return left < SMALLEST_SHARE ? SMALLEST_SHARE * Math.exp((left - SMALLEST_SHARE) * 4) : left;
}
