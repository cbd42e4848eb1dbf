import type { StretchRecord } from '#db/queries/read-stretches.ts';
import type { StretchRow } from '#server/engine/stretches/stretch-row.ts';

/** Stored stretches in the engine's terms, by vehicle. */
export function groupStretches(records: readonly StretchRecord[]): Map<number, StretchRow[]> {
  const groups = new Map<number, StretchRow[]>();
  for (const { vehicle, firstAt, lastAt, ...rest } of records) {
    const group = groups.get(vehicle) ?? [];
    groups.set(vehicle, group);
    group.push({ ...rest, firstAtMs: firstAt.getTime(), lastAtMs: lastAt.getTime() });
  }
  return groups;
}
