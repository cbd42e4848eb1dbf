import { inArray } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { vehicles } from '#db/schema/fleet.ts';

/** Which of these unit numbers are those of registered vehicles. */
export async function findKnownUnits(db: Database, units: readonly string[]): Promise<Set<string>> {
  if (units.length === 0) return new Set();
  const found = await db
    .select({ unit: vehicles.unit })
    .from(vehicles)
    .where(inArray(vehicles.unit, [...units]));
  return new Set(found.map(({ unit }) => unit));
}
