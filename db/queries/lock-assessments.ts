import { sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';

const ASSESSMENTS_LOCK = 730_511_504;

/** Serialises the writers of assessments and ranks until the end of the transaction: each writes many rows at once. */
export async function lockAssessments(transaction: Database): Promise<void> {
  await transaction.execute(sql`select pg_advisory_xact_lock(${ASSESSMENTS_LOCK})`);
}
