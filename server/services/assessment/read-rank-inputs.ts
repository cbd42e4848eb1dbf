import { eq, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { assessments } from '#db/schema/analysis.ts';
import { platforms, vehicles } from '#db/schema/fleet.ts';
import { readingSpans } from '#db/schema/intake.ts';
import type { StoredFacts } from './stored-assessment.ts';

/** Every vehicle that is ranked, where it stands now, with what its rank follows from. */
export function readRankInputs(db: Database) {
  return db
    .select({
      vehicle: assessments.vehicle,
      unit: vehicles.unit,
      depot: vehicles.depot,
      rank: assessments.rank,
      grade: assessments.grade,
      q: assessments.q,
      chance: assessments.chance,
      costAvoided: assessments.costAvoided,
      ranked: sql<boolean>`${assessments.chance} is not null`,
      calmPacket: assessments.calmPacket,
      facts: sql<StoredFacts>`${assessments.facts}`,
      odometerKm: readingSpans.odometerKm,
      platform: platforms,
    })
    .from(assessments)
    .innerJoin(vehicles, eq(vehicles.key, assessments.vehicle))
    .leftJoin(readingSpans, eq(readingSpans.vehicle, assessments.vehicle))
    .leftJoin(platforms, eq(platforms.id, vehicles.platform))
    .where(eq(vehicles.retired, false));
}

export type RankInput = Awaited<ReturnType<typeof readRankInputs>>[number];
