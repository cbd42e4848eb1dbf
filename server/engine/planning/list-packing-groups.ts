import type { PlanModel } from './build-plan-model.ts';

/** The packings that may fill one group of gaps of one day. */
export interface PackingGroup {
  /** of its packings */
  columns: number[];
  /** that can be filled */
  gaps: number;
}

/**
 * Columns of packings, group of gaps by group of gaps.
 *
 * @param plan     as {@link buildPlanModel} made it
 * @param extraDay index of the day on which the extra bay stands; null where it stands nowhere
 * @returns the groups, day by day
 * Source: own rule. Edges: none. Errors: none.
 * @example listPackingGroups(buildPlanModel({ days: [], candidates: [] }, { kind: 'holds', extra: false }), null) // []
 */
export function listPackingGroups(
  { columns, groups, extraGaps }: PlanModel,
  extraDay: number | null,
): PackingGroup[] {
  const found = new Map<string, PackingGroup>();
  for (const [j, column] of columns.entries()) {
    if (column.kind !== 'packing') continue;
    const { day, group } = column;
    const own = groups[day]?.[group]?.gaps ?? [];
    const at = found.get(`${day} ${group}`) ?? {
      columns: [],
      gaps: own.filter((gap) => gap !== extraGaps[day] || day === extraDay).length,
    };
    at.columns.push(j);
    found.set(`${day} ${group}`, at);
  }
  return [...found.values()];
}
