import { and, eq, inArray, isNull, type SQL, sql } from 'drizzle-orm';
import type { AnyPgColumn } from 'drizzle-orm/pg-core';
import { shopVehicles } from '#db/schema/access.ts';
import { vehicles } from '#db/schema/fleet.ts';
import { packets } from '#db/schema/packets.ts';
import { bookings } from '#db/schema/planning.ts';

/**
 * Which vehicles somebody sees: of these depots (null: all), or of those only what their shops have to do with: sent to
 * them, booked into one of their bays, or with an open packet of theirs.
 */
export interface Sight {
  depots: readonly string[] | null;
  atShopOnly: boolean;
}

/** The vehicles that somebody sees, as a condition on `vehicles`; undefined where that is all of them. */
export function seenBy({ depots, atShopOnly }: Sight): SQL | undefined {
  if (!atShopOnly) return depots === null ? undefined : inArray(vehicles.depot, [...depots]);
  const own = (depot: AnyPgColumn) => (depots === null ? undefined : inArray(depot, [...depots]));
  const sent = and(
    eq(shopVehicles.vehicle, vehicles.key),
    isNull(shopVehicles.endedAt),
    own(shopVehicles.depot),
  );
  const booked = and(eq(bookings.vehicle, vehicles.key), eq(bookings.state, 'booked'), own(bookings.depot));
  const opened = and(eq(packets.vehicle, vehicles.key), eq(packets.state, 'open'), own(packets.depot));
  return sql`(exists (select from ${shopVehicles} where ${sent}) or exists (select from ${bookings} where ${booked})
    or exists (select from ${packets} where ${opened}))`;
}
