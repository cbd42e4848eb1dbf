import { eq, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { assessments } from '#db/schema/analysis.ts';
import { vehicles } from '#db/schema/fleet.ts';

/**
 * What orders the whole fleet within another horizon, as stored: each vehicle's chances, codes and slip. Cut out of the
 * facts here, because all vehicles are read for one page.
 */
export function listRankFacts(db: Database) {
  const fact = (name: string) => sql`${assessments.facts} -> ${sql.raw(`'${name}'`)}`;
  return db
    .select({
      key: assessments.vehicle,
      platform: vehicles.platform,
      facts: sql`jsonb_build_object('chances', ${fact('chances')}, 'codes', ${fact('codes')}, 'levelRpm', ${fact('levelRpm')}, 'baselineRpm', ${fact('baselineRpm')})`,
    })
    .from(assessments)
    .innerJoin(vehicles, eq(vehicles.key, assessments.vehicle))
    .where(eq(vehicles.retired, false));
}
