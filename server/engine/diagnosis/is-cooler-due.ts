import type { Cause, Result } from './diagnosis-model.ts';

export interface CoolerDue {
  /** the cooler must be dealt with before the job is closed */
  due: boolean;
  because: 'pan_lining' | 'pan_metal' | 'cause' | null;
  /** not due, but good practice: a converter or transmission was replaced */
  advised: boolean;
}

const CAME_APART: ReadonlySet<Cause> = new Set([
  'lining_lost',
  'piston_cracked',
  'damper_broken',
  'one_way_clutch',
]);

/**
 * Whether cooler and lines must be flushed or replaced.
 *
 * Due where the pan showed lining or metal, or the teardown found what sheds it: lining lost, piston cracked, damper or
 * one-way clutch broken. Lining that is only worn leaves the fine paste that fluid and filter take away: then it is
 * advised with a new converter, and not due.
 *
 * @param seen.pan       result of the pan step; null where it was not done
 * @param seen.cause     what the teardown found; null where nothing was noted
 * @param seen.partKinds kinds of the parts that were replaced
 * @returns whether it is due, why, and whether it is advised otherwise
 * Source: common practice, no source. Edges: what the pan showed counts before the cause. Errors: none.
 * @example isCoolerDue({ pan: 'pan_lining', cause: null, partKinds: [] }) // { due: true, because: 'pan_lining', advised: false }
 */
export function isCoolerDue(seen: {
  pan: Result | null;
  cause: Cause | null;
  partKinds: readonly string[];
}): CoolerDue {
  if (seen.pan === 'pan_lining' || seen.pan === 'pan_metal')
    return { due: true, because: seen.pan, advised: false };
  if (seen.cause !== null && CAME_APART.has(seen.cause))
    return { due: true, because: 'cause', advised: false };
  const replaced = seen.partKinds.some((kind) => kind === 'converter' || kind === 'transmission');
  return { due: false, because: null, advised: replaced };
}
