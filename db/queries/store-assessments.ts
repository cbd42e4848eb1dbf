import { sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { assessments } from '#db/schema/analysis.ts';
import { lockAssessments } from './lock-assessments.ts';

export type NewAssessment = Omit<
  typeof assessments.$inferInsert,
  'asOf' | 'rank' | 'grade' | 'q' | 'chance' | 'costAvoided'
>;

/** A vehicle that has no rank yet stands behind all that have. */
const LAST_RANK = 2_147_483_647;
const ROWS = 200;

/**
 * Stores what was found of vehicles; rank, grade, q, chance and cost stay until the fleet is ranked again. In the caller's
 * transaction; nobody else may be storing what was found of the same vehicles.
 */
export async function storeAssessments(
  transaction: Database,
  asOf: Date,
  rows: readonly NewAssessment[],
): Promise<void> {
  if (rows.length === 0) return;
  await lockAssessments(transaction, 'beside others');
  for (let from = 0; from < rows.length; from += ROWS)
    await insert(transaction, asOf, rows.slice(from, from + ROWS));
}

async function insert(transaction: Database, asOf: Date, rows: readonly NewAssessment[]): Promise<void> {
  const excluded = (column: { name: string }) => sql.raw(`excluded.${column.name}`);
  await transaction
    .insert(assessments)
    .values(rows.map((row) => ({ ...row, asOf, rank: LAST_RANK, grade: 'unknown' as const })))
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
