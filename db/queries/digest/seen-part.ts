import { and, eq, type SQL } from 'drizzle-orm';
import { type Sight, seenBy } from '#db/queries/seen-vehicles.ts';
import { vehicles } from '#db/schema/fleet.ts';

/** Whose digest it is, and the depot that it is narrowed to. */
export interface SeenPart {
  sight: Sight;
  depot: string | undefined;
}

/** Its vehicles, as a condition on `vehicles`; undefined where that is all of them. */
export const ofPart = ({ sight, depot }: SeenPart): SQL | undefined =>
  and(seenBy(sight), depot === undefined ? undefined : eq(vehicles.depot, depot));
