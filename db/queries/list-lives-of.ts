import { asc, inArray } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { lives } from '#db/schema/fleet.ts';

/** The lives of some vehicles, by their keys, each vehicle's in order. */
export async function listLivesOf(db: Database, keys: readonly number[]) {
  if (keys.length === 0) return [];
  return db
    .select()
    .from(lives)
    .where(inArray(lives.vehicle, [...keys]))
    .orderBy(asc(lives.vehicle), asc(lives.fittedKm));
}
