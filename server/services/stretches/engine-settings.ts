import type { platforms } from '#db/schema/fleet.ts';
import { platformInput } from '#server/contract/fleet.ts';
import type { GateRules } from '#server/engine/gate/gate-reading.ts';
import { expectLife } from '#server/engine/life/expect-life.ts';
import type { LifeHazard } from '#server/engine/life/platform-life.ts';
import type { PlatformSettings } from '#server/engine/platform/platform-context.ts';

type PlatformRow = typeof platforms.$inferSelect;

/** Assumed for a vehicle that nobody has given a platform: the defaults of the contract. */
const assumed = platformInput.parse({ id: 'assumed', name: 'assumed' });

/** A stored platform, or the defaults, in the engine's terms; with the life that was fitted, else the expected one. */
export function toEngineSettings(
  row: PlatformRow | null,
  life: LifeHazard | null = null,
): PlatformSettings & {
  gate: GateRules;
  referenceTorqueNm: number | null;
} {
  const gate = row?.gate ?? assumed.gate;
  const reference = row?.reference ?? assumed.reference;
  const costs = row?.costs ?? assumed.costs;
  const bandEdgesPct = row?.bandEdgesPct ?? assumed.band_edges_pct;
  return {
    limitRpm: row?.limitRpm ?? assumed.limit_rpm,
    bandEdgesPct,
    reference: { dutyPct: reference.duty_pct, loadPct: reference.load_pct, fluidC: reference.fluid_c },
    life: life ?? (row?.lifeKm == null ? null : expectLife(row.lifeKm)),
    roadFailureCost: costs.road_failure,
    plannedRepairCost: costs.planned_repair,
    inspectionCost: costs.inspection + costs.lost_day,
    referenceTorqueNm: row?.referenceTorqueNm ?? null,
    gate: {
      lowestDutyPct: bandEdgesPct[0] ?? 0,
      lowLoadPct: gate.low_load_pct,
      overrunSlipRpm: gate.overrun_slip_rpm,
      lowSpeedKmh: gate.low_speed_kmh,
      coldFluidC: gate.cold_fluid_c,
      hotFluidC: gate.hot_fluid_c,
      dutyStepPct: gate.duty_step_pct,
      dutyWindowS: gate.duty_window_s,
    },
  };
}
