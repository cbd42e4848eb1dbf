import type { PlanModel } from './build-plan-model.ts';
import { compareForSeat } from './compare-for-seat.ts';
import type { DepotQuestion, Seating } from './planning-model.ts';

/**
 * Who is inspected in which gap, from the solution of a plan's model.
 *
 * Each packing that is used fills one gap of its group, in the order of the gaps; the vehicles of a day are dealt out
 * to the pieces of their length, those on hold first.
 *
 * @param question the depot
 * @param model    as {@link buildPlanModel} made it
 * @param values   of its columns, whole but for a small error
 * @returns the gaps that hold somebody
 * Source: own rule. Edges: a packing with pieces that nobody needs leaves them empty. Errors: none; a solution that is
 * none, with more vehicles than pieces, loses the vehicles that are too many.
 * @example readSeatings({ days: [], candidates: [] }, buildPlanModel({ days: [], candidates: [] }, { kind: 'holds', extra: false }), []) // []
 */
export function readSeatings(
  { days, candidates }: DepotQuestion,
  { columns, lengths, groups }: PlanModel,
  values: ArrayLike<number>,
): Seating[] {
  const waiting = days.map(() => lengths.map((): number[] => []));
  for (const [j, column] of columns.entries()) {
    if (column.kind !== 'seat' || (values[j] ?? 0) < 0.5) continue;
    const length = candidates[column.candidate]?.quarters ?? 0;
    waiting[column.day]?.[lengths.indexOf(length)]?.push(column.candidate);
  }
  for (const [d, own] of waiting.entries())
    for (const some of own)
      some.sort(compareForSeat(candidates, (candidate) => candidates[candidate]?.values[d] ?? 0));

  const free = groups.map((own) => own.map(({ gaps }) => [...gaps]));
  const seatings: Seating[] = [];
  for (const [j, column] of columns.entries()) {
    if (column.kind !== 'packing') continue;
    for (let n = Math.round(values[j] ?? 0); n > 0; n -= 1) {
      const gap = free[column.day]?.[column.group]?.shift();
      const inside = column.packing.flatMap((pieces, i) => waiting[column.day]?.[i]?.splice(0, pieces) ?? []);
      if (gap !== undefined && inside.length > 0) seatings.push({ day: column.day, gap, candidates: inside });
    }
  }
  return seatings;
}
