import { forgetDeliveries } from '#db/queries/upkeep/forget-deliveries.ts';
import { forgetUpkeepRuns } from '#db/queries/upkeep/upkeep-runs.ts';
import type { Context } from '#server/services/context.ts';
import { forgetExpired } from '#server/services/people/forget-expired.ts';
import { forgetPosts } from '#server/services/webhooks/forget-posts.ts';
import { startOfKept, type UpkeepLimits } from './upkeep-limits.ts';

/** Takes out records that have had their end, and answers of which tables how many: `sessions 3`. */
export async function forgetRecords(
  ctx: Context,
  { keepReceiptsMonths }: UpkeepLimits,
  signal: AbortSignal,
): Promise<string[]> {
  const now = ctx.now();
  const gone: Record<string, number> = {
    ...(await forgetExpired(ctx)),
    webhook_posts: await forgetPosts(ctx),
    upkeep_runs: await forgetUpkeepRuns(ctx.db, now),
  };
  if (keepReceiptsMonths > 0) {
    const before = startOfKept(now, keepReceiptsMonths);
    const { receipts, lines } = await forgetDeliveries(ctx.db, before, signal);
    gone.refused_lines = lines;
    gone.receipts = receipts;
  }
  return Object.entries(gone).flatMap(([table, count]) => (count > 0 ? [`${table} ${count}`] : []));
}
