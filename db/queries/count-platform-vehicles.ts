import { type Database, rawClient } from '#db/client.ts';

/** Vehicles of each platform, retired ones aside; '' for those with none. */
export async function countPlatformVehicles(db: Database): Promise<Map<string, number>> {
  const rows = await rawClient(db)<{ platform: string; n: number }[]>`
    select coalesce(platform, '') as platform, count(*) as n from vehicles where not retired group by 1`;
  return new Map(rows.map(({ platform, n }) => [platform, n]));
}
