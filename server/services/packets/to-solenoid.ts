import type { SolenoidFigures } from '#server/engine/diagnosis/expected-current.ts';
import type { JudgedPlatform } from './judged-by.ts';

/** Figures of a solenoid as the engine takes them; a supply that was measured stands for the platform's. */
export const toSolenoid = (
  { ohm, supply_v, wiring_ohm, tolerance_pct }: NonNullable<JudgedPlatform['solenoid']>,
  measuredV?: number,
): SolenoidFigures => ({
  ohm,
  supplyV: measuredV ?? supply_v,
  wiringOhm: wiring_ohm,
  tolerancePct: tolerance_pct,
});
