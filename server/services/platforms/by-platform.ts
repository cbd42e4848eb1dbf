import type { Database } from '#db/client.ts';
import { platforms } from '#db/schema/fleet.ts';

type PlatformRow = typeof platforms.$inferSelect;

/** What is made of each platform, by its id; what is made of none, for a vehicle without one. */
export async function byPlatform<T>(
  db: Database,
  make: (platform: PlatformRow | null) => T,
): Promise<(platform: string | null) => T> {
  const rows = await db.select().from(platforms);
  const known = new Map(rows.map((row) => [row.id, make(row)]));
  const assumed = make(null);
  return (platform) => known.get(platform ?? '') ?? assumed;
}
