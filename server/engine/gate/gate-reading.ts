/** Why a reading is set aside. `odometer` is told by {@link joinOdometer}, which needs more than one reading. */
export type GateReason =
  | 'not_commanded'
  | 'shifting'
  | 'overrun'
  | 'low_load'
  | 'low_speed'
  | 'cold'
  | 'hot'
  | 'duty_moving';

/** Rules for steady lockup. Units are in the names. */
export interface GateRules {
  lowestDutyPct: number;
  lowLoadPct: number;
  overrunSlipRpm: number;
  lowSpeedKmh: number;
  coldFluidC: number;
  hotFluidC: number;
  dutyStepPct: number;
  dutyWindowS: number;
}

/** What the gate needs of a reading; null where the feed does not carry the signal. */
export interface GatedReading {
  atMs: number;
  slipRpm: number;
  dutyPct: number;
  fluidC: number | null;
  loadPct: number | null;
  speedKmh: number | null;
  shifting: boolean | null;
}

/**
 * Gate for steady lockup: tells whether slip of a reading can be compared with that of others.
 *
 * Usable where duty >= lowest band edge, not shifting, slip >= overrun slip, load >= low load where known,
 * speed >= low speed where known, cold <= fluid <= hot where known, and |duty - previous duty| <= step where the previous
 * reading of the vehicle is less than the window old. The first rule that fails is the answer.
 *
 * @param reading  the reading
 * @param previous the vehicle's reading before it in time, usable or not; null for the first
 * @param rules    limits of the platform
 * @returns null where usable, else the reason
 * Source: common practice, no source. Edges: a limit itself passes; an unknown signal never sets aside.
 * Errors: none.
 * @example gateReading(warmCruise, null, gateRules) // null
 */
export function gateReading(
  reading: GatedReading,
  previous: Pick<GatedReading, 'atMs' | 'dutyPct'> | null,
  rules: GateRules,
): GateReason | null {
  if (reading.dutyPct < rules.lowestDutyPct) return 'not_commanded';
  if (reading.shifting === true) return 'shifting';
  if (reading.slipRpm < rules.overrunSlipRpm) return 'overrun';
  if (reading.loadPct !== null && reading.loadPct < rules.lowLoadPct) return 'low_load';
  if (reading.speedKmh !== null && reading.speedKmh < rules.lowSpeedKmh) return 'low_speed';
  if (reading.fluidC !== null && reading.fluidC < rules.coldFluidC) return 'cold';
  if (reading.fluidC !== null && reading.fluidC > rules.hotFluidC) return 'hot';
  if (previous !== null) {
    const fresh = reading.atMs - previous.atMs < rules.dutyWindowS * 1000;
    if (fresh && Math.abs(reading.dutyPct - previous.dutyPct) > rules.dutyStepPct) return 'duty_moving';
  }
  return null;
}
