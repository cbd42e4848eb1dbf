import type { platforms } from '#db/schema/fleet.ts';
import { type Platform, platformInput } from '#server/contract/fleet.ts';

export type PlatformRow = typeof platforms.$inferSelect;

export function toPlatform(row: PlatformRow): Platform {
  return {
    id: row.id,
    name: row.name,
    limit_rpm: row.limitRpm,
    band_edges_pct: row.bandEdgesPct,
    reference: row.reference,
    gate: row.gate,
    life_km: row.lifeKm,
    solenoid: row.solenoid,
    converter: row.converter,
    reference_torque_nm: row.referenceTorqueNm,
    costs: row.costs,
    inspection_hours: row.inspectionHours,
  };
}

export function toPlatformRow(platform: Platform, changedAt: Date): PlatformRow {
  return {
    id: platform.id,
    name: platform.name,
    limitRpm: platform.limit_rpm,
    bandEdgesPct: platform.band_edges_pct,
    reference: platform.reference,
    gate: platform.gate,
    lifeKm: platform.life_km,
    solenoid: platform.solenoid,
    converter: platform.converter,
    referenceTorqueNm: platform.reference_torque_nm,
    costs: platform.costs,
    inspectionHours: platform.inspection_hours,
    changedAt,
  };
}

const GROUPS = ['reference', 'gate', 'costs', 'solenoid', 'converter'] as const;

/** Fields left out stay as they are, also within groups; null takes a group away. A group that is new lacks its other parts. */
export function mergePlatform(before: Platform, input: Record<string, unknown>) {
  const merged: Record<string, unknown> = { ...before, ...input };
  for (const group of GROUPS)
    if (input[group] !== null && (before[group] !== null || input[group] !== undefined))
      merged[group] = { ...before[group], ...(input[group] as object | undefined) };
  return platformInput.safeParse(merged);
}
