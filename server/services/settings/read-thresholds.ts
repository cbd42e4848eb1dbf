import { eq } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { fleetSettings } from '#db/schema/fleet.ts';
import { type Thresholds, thresholds } from '#server/contract/settings.ts';
import type { GradeLimits } from '#server/engine/assessment/grade-vehicle.ts';

/** Where grades begin in this fleet; as usual where nobody has said anything. */
export async function readThresholds(db: Database): Promise<Thresholds> {
  const [row] = await db
    .select({ value: fleetSettings.value })
    .from(fleetSettings)
    .where(eq(fleetSettings.name, 'thresholds'));
  return thresholds.parse(row?.value ?? {});
}

export const toGradeLimits = (chosen: Thresholds): GradeLimits => ({
  q: chosen.evidence_q,
  holdChance: chosen.hold_chance,
  bookChance: chosen.book_chance,
  quietDays: chosen.quiet_days,
});
