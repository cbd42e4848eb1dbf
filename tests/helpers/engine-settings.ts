import type { GateRules } from '#server/engine/gate/gate-reading.ts';
import type { PlatformSettings } from '#server/engine/platform/platform-context.ts';

/** A platform as the engine knows it. */
export const platformSettings: PlatformSettings = {
  limitRpm: 150,
  bandEdgesPct: [40, 55, 70, 85, 100],
  reference: { dutyPct: 85, loadPct: 50, fluidC: 85 },
  life: { shape: 2.2, scaleKm: 300_000 / 0.8856 },
  roadFailureCost: 8_000,
  plannedRepairCost: 3_000,
  inspectionCost: 200,
};

export const gateRules: GateRules = {
  lowestDutyPct: 40,
  lowLoadPct: 15,
  overrunSlipRpm: -15,
  lowSpeedKmh: 30,
  coldFluidC: 55,
  hotFluidC: 125,
  dutyStepPct: 5,
  dutyWindowS: 30,
};
