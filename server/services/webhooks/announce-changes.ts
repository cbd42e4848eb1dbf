import { randomUUID } from 'node:crypto';
import type { Database } from '#db/client.ts';
import type { GradeChange } from '#db/queries/store-grade-changes.ts';
import { insertPosts, isFirstRanking, listTold, readAnnounced } from '#db/queries/webhook-events.ts';
import type { WebhookEvent } from '#server/contract/webhooks.ts';
import { DEFAULT_HORIZON_KM } from '#server/services/assessment/horizon.ts';
import type { StoredBrief } from '#server/services/assessment/stored-assessment.ts';
import { readCodeBook } from '#server/services/codes/code-book.ts';
import { reasonWords } from '#server/services/words/reason-words.ts';
import { hasWorsened } from './has-worsened.ts';

/**
 * Notes for every webhook that wants it that a grade has worsened, in the transaction of the change: none without the
 * other. A vehicle that is graded for the first time counts only where the fleet has been ranked for a day: the first
 * ranking, and the rest of the readings that come in after it, would send everything at once.
 */
export async function announceChanges(
  transaction: Database,
  at: Date,
  changes: readonly GradeChange[],
): Promise<void> {
  const worse = changes.filter(({ from, to }) => hasWorsened(from, to));
  if (worse.length === 0) return;
  const told = await listTold(transaction);
  if (told.length === 0 || (await isFirstRanking(transaction, at))) return;
  const book = await readCodeBook(transaction);
  const facts = new Map(
    (
      await readAnnounced(
        transaction,
        worse.map(({ vehicle }) => vehicle),
      )
    ).map((row) => [row.vehicle, row]),
  );
  const posts = worse.flatMap(({ vehicle, from, to, odometerKm }) => {
    const row = facts.get(vehicle);
    if (row === undefined) return [];
    const { reasons } = row.brief as StoredBrief;
    const event: Omit<WebhookEvent, 'event'> = {
      type: 'grade_worsened',
      at: at.toISOString(),
      vehicle: row.unit,
      depot: row.depot,
      platform: row.platform,
      from,
      to,
      odometer_km: toKm(odometerKm),
      reasons: reasons.map((reason) => reasonWords(reason, 'metric', book)),
      km_to_limit: { p10: toKm(row.kmP10), p50: toKm(row.kmP50), p90: toKm(row.kmP90) },
      chance_within_horizon: row.chance === null ? null : Math.round(row.chance * 1e4) / 1e4,
      horizon_km: DEFAULT_HORIZON_KM,
    };
    return told
      .filter(({ grades }) => grades.includes(to))
      .map((webhook) => {
        const id = randomUUID();
        return { id, webhook: webhook.id, vehicle, at, body: { event: id, ...event }, nextAt: at };
      });
  });
  await insertPosts(transaction, posts);
}

const toKm = (km: number | null): number | null => (km === null ? null : Math.round(km));
