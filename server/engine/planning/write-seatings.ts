import type { PlanModel } from './build-plan-model.ts';
import type { DepotQuestion, Seating } from './planning-model.ts';

/**
 * The solution of a plan's model that stands for given seatings; what {@link readSeatings} reads back.
 *
 * @param question the depot
 * @param model    as {@link buildPlanModel} made it
 * @param seatings that fit into their gaps; candidates that have no column are left out
 * @returns a value for each column; null where a gap holds what no packing of the model holds
 * Source: own rule. Edges: none. Errors: none.
 * @example writeSeatings({ days: [], candidates: [] }, buildPlanModel({ days: [], candidates: [] }, { kind: 'holds', extra: false }), []) // []
 */
export function writeSeatings(
  { days, candidates }: DepotQuestion,
  { columns, lengths, groups }: PlanModel,
  seatings: readonly Seating[],
): number[] | null {
  const values = columns.map(() => 0);
  const seats = new Map<string, number>();
  const extras = new Map<number, number>();
  const packings = new Map<string, number[]>();
  for (const [j, column] of columns.entries()) {
    if (column.kind === 'seat') seats.set(`${column.candidate} ${column.day}`, j);
    else if (column.kind === 'extra') extras.set(column.day, j);
    else if (column.kind === 'packing') {
      const key = `${column.day} ${column.group}`;
      const own = packings.get(key);
      if (own === undefined) packings.set(key, [j]);
      else own.push(j);
    }
  }
  for (const { day, gap, candidates: inside } of seatings) {
    const known = inside.filter((candidate) => seats.has(`${candidate} ${day}`));
    if (known.length === 0) continue;
    const pieces = lengths.map(
      (length) => known.filter((candidate) => candidates[candidate]?.quarters === length).length,
    );
    const group = groups[day]?.findIndex(({ gaps }) => gaps.includes(gap)) ?? -1;
    const packing = packings.get(`${day} ${group}`)?.find((j) => {
      const column = columns[j];
      return column?.kind === 'packing' && pieces.every((n, i) => n <= (column.packing[i] ?? 0));
    });
    const extra = gap === days[day]?.gaps.length ? extras.get(day) : null;
    if (packing === undefined || extra === undefined) return null;
    values[packing] = (values[packing] ?? 0) + 1;
    if (extra !== null) values[extra] = 1;
    for (const candidate of known) values[seats.get(`${candidate} ${day}`) ?? 0] = 1;
  }
  return values;
}
