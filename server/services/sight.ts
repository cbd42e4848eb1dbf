import type { Sight } from '#db/queries/seen-vehicles.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Actor } from './actor.ts';

/** Which vehicles the one who asks may see: those of their depots; a shop, what was sent to it. */
export const sightOf = ({ depots, role }: Actor): Sight => ({ depots, atShopOnly: role === 'shop' });

/** Who may be told of the lives and failures of all vehicles, though only as a count. */
export const seesWholeFleet = ({ depots, role }: Pick<Actor, 'depots' | 'role'>): boolean =>
  depots === null && role !== 'shop';

/** For what concerns the fleet as a whole, or vehicles of which nobody has said yet where they belong. */
export function requireAllDepots({ depots }: Actor, what: string): void {
  if (depots === null) return;
  throw new SlipdriftError(
    'not_allowed',
    `${what} is for people who work for all depots; yours are ${depots.join(', ')}. Nothing was changed.`,
  );
}
