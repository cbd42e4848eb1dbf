import type { PlanModel } from './build-plan-model.ts';
import { fixPackings } from './fix-packings.ts';
import { listPackingGroups, type PackingGroup } from './list-packing-groups.ts';
import type { LinearSession, Relaxed } from './planning-model.ts';

/** Share of the groups still open that is fixed in one step. Own choice. */
const STEP = 1 / 4;
/** What is this near to a whole number is one. */
const WHOLE = 1e-6;

/**
 * Packings for a first good plan, from the relaxation of its model by a few more of them.
 *
 * In each step the packings of those groups of gaps that are nearest to whole numbers are rounded and fixed: down, and
 * what is left of the gaps goes to the packings with the largest remainders. The rest is relaxed anew. As rounding may
 * leave room for fewer vehicles on hold than are asked for, some may be short here.
 *
 * @param plan    as {@link buildPlanModel} made it
 * @param relaxed its relaxation
 * @param session of its model
 * @returns the plan that is left once all packings are fixed, as {@link fixPackings} does; null where a step finds nothing
 * or takes too long
 * Source: diving heuristic, T. Achterberg, Constraint integer programming, 2007, section 9.2 (from memory). Edges: as
 * said. Errors: none.
 * @example diveForPlan(plan, relaxed, session) // { bound: 9000, values: [1, 0, 1], marginals: [0, -20, 0] }
 */
export function diveForPlan(plan: PlanModel, relaxed: Relaxed, session: LinearSession): Relaxed | null {
  const rounded = plan.columns.map(() => 0);
  for (const [j, { kind }] of plan.columns.entries()) if (kind === 'short') session.bound(j, 0, Infinity);
  const extraDay = chooseExtra(plan, rounded, relaxed, session);
  let open = listPackingGroups(plan, extraDay);
  let now: Relaxed | null = relaxed;
  while (open.length > 0) {
    if (now === null) return null;
    const { values } = now;
    const order = open
      .map((group) => ({ group, off: offWhole(group, values) }))
      .sort((a, b) => a.off - b.off);
    const whole = order.filter(({ off }) => off <= WHOLE).length;
    const steps = Math.max(1, whole + Math.ceil(STEP * (order.length - whole)));
    for (const { group } of order.slice(0, steps))
      for (const [j, value] of roundGroup(group, values)) {
        rounded[j] = value;
        session.bound(j, value, value);
      }
    open = order.slice(steps).map(({ group }) => group);
    if (open.length > 0) now = session.relax();
  }
  return fixPackings(plan, rounded, session);
}

/** Puts the extra bay on the day that has most of it. */
function chooseExtra(
  { columns }: PlanModel,
  rounded: number[],
  { values }: Relaxed,
  session: LinearSession,
): number | null {
  const extras = columns.flatMap((column, j) => (column.kind === 'extra' ? [{ j, day: column.day }] : []));
  const [first] = extras.toSorted((a, b) => (values[b.j] ?? 0) - (values[a.j] ?? 0));
  if (first === undefined) return null;
  for (const { j } of extras) session.bound(j, Number(j === first.j), Number(j === first.j));
  rounded[first.j] = 1;
  return first.day;
}

const offWhole = ({ columns }: PackingGroup, values: ArrayLike<number>): number =>
  columns.reduce((sum, j) => sum + Math.abs((values[j] ?? 0) - Math.round(values[j] ?? 0)), 0);

function roundGroup(
  { columns, gaps }: PackingGroup,
  values: ArrayLike<number>,
): [column: number, value: number][] {
  const parts = columns.map((j) => {
    const value = Math.max(0, values[j] ?? 0);
    const least = Math.floor(value + WHOLE);
    return { j, least, rest: value - least };
  });
  let left = gaps - parts.reduce((sum, { least }) => sum + least, 0);
  return parts
    .sort((a, b) => b.rest - a.rest)
    .map(({ j, least, rest }) => {
      const more = rest > WHOLE && left > 0 ? 1 : 0;
      left -= more;
      return [j, least + more];
    });
}
