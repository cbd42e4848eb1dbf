/** Electrical figures of a platform's converter clutch solenoid. */
export interface SolenoidFigures {
  /** of the coil at 20 degC, ohm */
  ohm: number;
  /** V */
  supplyV: number;
  /** of wiring, connectors and driver, ohm */
  wiringOhm: number;
  /** how far a current may lie from the expected, % of it */
  tolerancePct: number;
}

export interface ExpectedCurrent {
  /** with the coil at 20 degC */
  expectedA: number;
  lowA: number;
  highA: number;
  /** with the coil at 100 degC */
  hotA: number;
}

/** Of annealed copper at 20 degC, 1/K (IEC 60028, from memory). */
export const COPPER_PER_K = 0.00393;
export const HOT_COIL_C = 100;

/**
 * Change of current to expect when a solenoid is commanded.
 *
 * I = V / (R + Rw), within +- tolerance; with a hot coil R * (1 + 0.00393 * (100 - 20)) stands for R.
 *
 * @param figures coil at 20 degC and wiring, ohm; supply, V; tolerance, %
 * @returns expected, low and high change, and the one of a coil at 100 degC, A
 * Source: Ohm's law; copper 0.00393 per K at 20 degC, IEC 60028, from memory. Edges: no command that is pulsed: it draws
 * its share of this. Errors: throws where the resistances do not come to more than 0 ohm.
 * @example expectedCurrent({ ohm: 5.5, supplyV: 24, wiringOhm: 0.5, tolerancePct: 25 }).expectedA // 4
 */
export function expectedCurrent(figures: SolenoidFigures): ExpectedCurrent {
  const { ohm, supplyV, wiringOhm, tolerancePct } = figures;
  if (!(ohm + wiringOhm > 0)) throw new Error('expectedCurrent requires a resistance above 0 ohm');
  const expectedA = supplyV / (ohm + wiringOhm);
  const toleranceA = (expectedA * tolerancePct) / 100;
  return {
    expectedA,
    lowA: expectedA - toleranceA,
    highA: expectedA + toleranceA,
    hotA: supplyV / (ohm * (1 + COPPER_PER_K * (HOT_COIL_C - 20)) + wiringOhm),
  };
}
