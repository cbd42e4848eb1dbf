import { sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';

const ASSESSMENTS_LOCK = 730_511_504;

/**
 * Keeps writers of assessments and ranks out of each other's way until the end of the transaction: those who write some vehicles
 * each stand beside others, whoever ranks the fleet stands alone.
 */
export async function lockAssessments(
  transaction: Database,
  how: 'alone' | 'beside others' = 'alone',
): Promise<void> {
  await transaction.execute(
    how === 'alone'
      ? sql`select pg_advisory_xact_lock(${ASSESSMENTS_LOCK})`
      : sql`select pg_advisory_xact_lock_shared(${ASSESSMENTS_LOCK})`,
  );
}
