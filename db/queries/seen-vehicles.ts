import { and, inArray, type SQL, sql } from 'drizzle-orm';
import { shopVehicles } from '#db/schema/access.ts';
import { vehicles } from '#db/schema/fleet.ts';

/** Which vehicles somebody sees: of these depots (null: all), or of those only what stands at their shops. */
export interface Sight {
  depots: readonly string[] | null;
  atShopOnly: boolean;
}

/** The vehicles that somebody sees, as a condition on `vehicles`; undefined where that is all of them. */
export function seenBy({ depots, atShopOnly }: Sight): SQL | undefined {
  if (!atShopOnly) return depots === null ? undefined : inArray(vehicles.depot, [...depots]);
  const ofDepots = depots === null ? undefined : inArray(shopVehicles.depot, [...depots]);
  const there = and(
    sql`${shopVehicles.vehicle} = ${vehicles.key}`,
    sql`${shopVehicles.endedAt} is null`,
    ofDepots,
  );
  return sql`exists (select from ${shopVehicles} where ${there})`;
}
