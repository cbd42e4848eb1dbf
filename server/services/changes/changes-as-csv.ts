import type { Context } from '#server/services/context.ts';
import { writeCsv } from '#server/services/csv/write-csv.ts';
import { type ChangesFilter, listChanges } from './list-changes.ts';

const COLUMNS = [
  'id',
  'at',
  'actor_kind',
  'actor_id',
  'actor_name',
  'from',
  'action',
  'subject',
  'subject_id',
  'before',
  'after',
  'request',
];
/** What one answer may hold; older ones are had with `until`. */
const ROWS = 100_000;

export async function changesAsCsv(ctx: Context, filter: ChangesFilter): Promise<string> {
  const { rows } = await listChanges(ctx, { ...filter, limit: ROWS });
  return writeCsv(
    COLUMNS,
    rows.map(({ id, at, actor, from, action, subject, subject_id, before, after, request }) => [
      id,
      at,
      actor.kind,
      actor.id,
      actor.name,
      from,
      action,
      subject,
      subject_id,
      before === null ? null : JSON.stringify(before),
      after === null ? null : JSON.stringify(after),
      request,
    ]),
  );
}
