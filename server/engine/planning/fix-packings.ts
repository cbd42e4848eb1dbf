import type { PlanModel } from './build-plan-model.ts';
import type { LinearSession, Relaxed } from './planning-model.ts';

/**
 * The best plan whose packings are given.
 *
 * What is left of the model is a transportation problem of vehicles to the pieces of the packings, whose corners are
 * whole: its relaxation is a plan. The marginals of the packings say what one gap more of each would be worth.
 *
 * @param plan    as {@link buildPlanModel} made it
 * @param values  of its columns, of which only packings and the extra bay count
 * @param session of its model, which keeps these as they are from here on
 * @returns the plan, with vehicles on hold that are short where they have no room; null where it is none, or took too long
 * Source: A. J. Hoffman and J. B. Kruskal, Integral boundary points of convex polyhedra, 1956 (from memory). Edges,
 * errors: none.
 * @example fixPackings(plan, [0, 0, 1], session) // { bound: 9000, values: [1, 0, 1], marginals: [0, -20, 0] }
 */
export function fixPackings(
  { columns }: PlanModel,
  values: ArrayLike<number>,
  session: LinearSession,
): Relaxed | null {
  for (const [j, { kind }] of columns.entries())
    if (kind === 'short') session.bound(j, 0, Infinity);
    else if (kind !== 'seat') session.bound(j, values[j] ?? 0, values[j] ?? 0);
  const found = session.relax();
  if (found === null) return null;
  const whole = Array.from(found.values, Math.round);
  return whole.every((value, j) => Math.abs(value - (found.values[j] ?? 0)) <= 1e-6)
    ? { ...found, values: whole }
    : null;
}
