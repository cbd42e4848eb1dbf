import { and, desc, eq, inArray, lte, type SQL, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { odometerSteps } from '#db/schema/analysis.ts';
import { packets } from '#db/schema/packets.ts';
import { jobKm } from './joined-km.ts';

/** Kilometres to be added to what the instrument of a vehicle showed at a moment, so that its tracks join. */
export async function findOffsetKm(db: Database, vehicle: number, at: Date): Promise<number> {
  const [step] = await db
    .select({ offsetKm: odometerSteps.offsetKm })
    .from(odometerSteps)
    .where(and(eq(odometerSteps.vehicle, vehicle), lte(odometerSteps.at, at)))
    .orderBy(desc(odometerSteps.at))
    .limit(1);
  return step?.offsetKm ?? 0;
}

/** Where on the joined track a job was done. Names are written out: alone in a statement a column comes without its table. */
const joinedKm: SQL<number> = sql<number>`${sql.raw(jobKm('packets'))}`;

/** The repairs of some vehicles on their joined tracks, the first of each first. */
export function listRepairs(
  db: Database,
  vehicles: readonly number[],
): Promise<{ vehicle: number; packet: number; km: number }[]> {
  return db
    .select({ vehicle: packets.vehicle, packet: packets.id, km: joinedKm })
    .from(packets)
    .where(and(inArray(packets.vehicle, [...vehicles]), eq(packets.outcome, 'repaired')))
    .orderBy(joinedKm);
}
