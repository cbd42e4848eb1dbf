import { asc } from 'drizzle-orm';
import { depots, platforms } from '#db/schema/fleet.ts';
import type { Depot, Platform } from '#server/contract/fleet.ts';
import type { Context } from '#server/services/context.ts';
import { toDepot } from './change-depot.ts';
import { toPlatform } from './platform-rows.ts';

export async function listPlatforms({ db }: Context): Promise<Platform[]> {
  return (await db.select().from(platforms).orderBy(asc(platforms.name), asc(platforms.id))).map(toPlatform);
}

export async function listDepots({ db }: Context): Promise<Depot[]> {
  return (await db.select().from(depots).orderBy(asc(depots.name), asc(depots.id))).map(toDepot);
}
