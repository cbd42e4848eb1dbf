import type { HealthySlip } from '#server/engine/diagnosis/healthy-by-duty.ts';
import type { JudgedPlatform } from './judged-by.ts';

/** Slip of healthy vehicles as the engine takes it. */
export const toHealthy = (healthy: JudgedPlatform['healthy']): HealthySlip[] =>
  healthy.map(({ duty_pct, low_rpm, usual_rpm, high_rpm }) => ({
    dutyPct: duty_pct,
    lowRpm: low_rpm,
    usualRpm: usual_rpm,
    highRpm: high_rpm,
  }));
