import type { HealthySlip } from '#server/engine/diagnosis/healthy-by-duty.ts';

/** What judging a test step needs to know of the platform. */
export interface JudgedPlatform {
  limitRpm: number;
  /** the lowest edge of the command bands */
  lowestDutyPct: number;
  solenoid: { ohm: number; supply_v: number; wiring_ohm: number; tolerance_pct: number } | null;
  /** usual slip of healthy vehicles by command; empty where nothing was learned yet */
  healthy: HealthySlip[];
}
