import { sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { assessments } from '#db/schema/analysis.ts';

export type NewAssessment = Omit<
  typeof assessments.$inferInsert,
  'asOf' | 'rank' | 'grade' | 'q' | 'chance' | 'costAvoided'
>;

/** A vehicle that has no rank yet stands behind all that have. */
const LAST_RANK = 2_147_483_647;
const ROWS = 200;

/** Stores what was found of vehicles; rank, grade, q, chance and cost stay until the fleet is ranked again. */
export async function storeAssessments(
  db: Database,
  asOf: Date,
  rows: readonly NewAssessment[],
): Promise<void> {
  const excluded = (column: { name: string }) => sql.raw(`excluded.${column.name}`);
  for (let from = 0; from < rows.length; from += ROWS) {
    await db
      .insert(assessments)
      .values(
        rows
          .slice(from, from + ROWS)
          .map((row) => ({ ...row, asOf, rank: LAST_RANK, grade: 'unknown' as const })),
      )
      .onConflictDoUpdate({
        target: assessments.vehicle,
        set: {
          asOf: excluded(assessments.asOf),
          pattern: excluded(assessments.pattern),
          life: excluded(assessments.life),
          referenceSlipRpm: excluded(assessments.referenceSlipRpm),
          baselineRpm: excluded(assessments.baselineRpm),
          limitRpm: excluded(assessments.limitRpm),
          onsetKm: excluded(assessments.onsetKm),
          driftRpmPerKm: excluded(assessments.driftRpmPerKm),
          driftLow: excluded(assessments.driftLow),
          driftHigh: excluded(assessments.driftHigh),
          p: excluded(assessments.p),
          kmP10: excluded(assessments.kmP10),
          kmP50: excluded(assessments.kmP50),
          kmP90: excluded(assessments.kmP90),
          kmPerDay: excluded(assessments.kmPerDay),
          facts: excluded(assessments.facts),
          brief: excluded(assessments.brief),
          detail: excluded(assessments.detail),
        },
      });
  }
}
