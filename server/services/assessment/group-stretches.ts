import type { StretchRecord } from '#db/queries/stored-stretches.ts';

/** Stored stretches by vehicle, in their order. */
export function groupStretches(records: readonly StretchRecord[]): Map<number, StretchRecord[]> {
  const groups = new Map<number, StretchRecord[]>();
  for (const record of records) {
    const group = groups.get(record.vehicle);
    if (group === undefined) groups.set(record.vehicle, [record]);
    else group.push(record);
  }
  return groups;
}
