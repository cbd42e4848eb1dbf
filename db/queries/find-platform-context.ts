import { type Database, type RawClient, rawClient } from '#db/client.ts';

export interface FoundContext {
  /** of the row as it is stored: another after every change */
  version: string;
  /** null where it is of the version that is known */
  context: unknown;
  heatMjPer1000km: number | null;
  heatVehicles: number;
  hotShare: number | null;
  hotVehicles: number;
}

/** What was last learned of a platform, but for the context itself where that has not changed since `knownVersion`. */
export async function findPlatformContext(
  db: Database,
  platform: string,
  knownVersion: string,
): Promise<FoundContext | null> {
  const client = rawClient(db);
  const [row] = await client<FoundContext[]>`${platformContext(client, platform, knownVersion)}`;
  return row ?? null;
}

export const platformContext = (client: RawClient, platform: string, knownVersion: string) => client`
  select version, case when version = ${knownVersion} then null else context end as context,
    usual_heat_mj_per_1000km as "heatMjPer1000km", heat_vehicles as "heatVehicles",
    usual_hot_share as "hotShare", hot_vehicles as "hotVehicles"
  from (select *, xmin::text || ctid::text as version from platform_contexts where platform = ${platform}) found`;
