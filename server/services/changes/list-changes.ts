import { and, count, desc, eq, gte, lt, type SQL } from 'drizzle-orm';
import { containsText } from '#db/queries/contains-text.ts';
import { changes } from '#db/schema/access.ts';
import type { Change, Changes, ChangesQuery } from '#server/contract/changes.ts';
import type { ChangeAction, ChangeSubject } from '#server/contract/words.ts';
import type { Context } from '#server/services/context.ts';

export type ChangesFilter = Omit<ChangesQuery, 'limit' | 'before_id'>;

/** Who changed what, newest first. */
export async function listChanges({ db }: Context, query: ChangesQuery): Promise<Changes> {
  const { limit, before_id: beforeId, ...filter } = query;
  const wanted = where(filter);
  const [[total], rows] = await Promise.all([
    db.select({ n: count() }).from(changes).where(wanted),
    db
      .select()
      .from(changes)
      .where(and(wanted, beforeId === undefined ? undefined : lt(changes.id, beforeId)))
      .orderBy(desc(changes.id))
      .limit(limit),
  ]);
  return { total: total?.n ?? 0, rows: rows.map(toChange) };
}

function where({
  subject,
  subject_id: subjectId,
  actor,
  action,
  since,
  until,
}: ChangesFilter): SQL | undefined {
  return and(
    subject === undefined ? undefined : eq(changes.subject, subject),
    subjectId === undefined ? undefined : eq(changes.subjectId, subjectId),
    actor === undefined ? undefined : containsText(changes.actorName, actor),
    action === undefined ? undefined : eq(changes.action, action),
    since === undefined ? undefined : gte(changes.at, new Date(since)),
    until === undefined ? undefined : lt(changes.at, new Date(until)),
  );
}

const toChange = (row: typeof changes.$inferSelect): Change => ({
  id: row.id,
  at: row.at.toISOString(),
  actor: { kind: row.actorKind, id: row.actorId, name: row.actorName },
  from: row.from,
  action: row.action as ChangeAction,
  subject: row.subject as ChangeSubject,
  subject_id: row.subjectId,
  before: row.before,
  after: row.after,
  request: row.request,
});
