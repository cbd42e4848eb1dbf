import type { Database } from '#db/client.ts';
import { countAssessments } from '#db/queries/list-assessments.ts';
import type { ListFilter } from '#db/queries/list-filter.ts';
import type { Context } from '#server/services/context.ts';
import { createShare } from '#server/services/share-equal.ts';

const shareOf = new WeakMap<Database, ReturnType<typeof createShare>>();

/** What a filter lets through, by grade: counted once for all pages and orders of a list that are asked for at once. */
export function countListed({ db, now }: Pick<Context, 'db' | 'now'>, filter: ListFilter) {
  const share = shareOf.get(db) ?? createShare();
  shareOf.set(db, share);
  return share(JSON.stringify(filter), () => countAssessments(db, filter, now()));
}
