import { isDeepStrictEqual } from 'node:util';
import type { Database } from '#db/client.ts';
import { changes } from '#db/schema/access.ts';
import type { ChangeAction, ChangeSubject } from '#server/contract/words.ts';
import type { Context } from '#server/services/context.ts';

type Content = Record<string, unknown>;

export interface NotedChange {
  action: ChangeAction;
  subject: ChangeSubject;
  subjectId: string;
  /** whole; only the fields that differ are written down */
  before?: Content | null;
  after?: Content | null;
  /** fields that are written down though they are the same */
  always?: readonly string[];
}

/** Rows of one statement: PostgreSQL takes 65,535 parameters, and a row has eleven. */
const ROWS = 5000;

/** Writes down who changed what, in the transaction of the change: neither is there without the other. */
export async function noteChanges(
  transaction: Database,
  { actor, now }: Pick<Context, 'actor' | 'now'>,
  noted: readonly NotedChange[],
): Promise<void> {
  const at = now();
  const rows = noted.map(({ action, subject, subjectId, before = null, after = null, always = [] }) => ({
    at,
    actorKind: actor.kind,
    actorId: actor.id,
    actorName: actor.name,
    from: actor.from,
    request: actor.request,
    action,
    subject,
    subjectId,
    ...differing(before, after, always),
  }));
  for (let i = 0; i < rows.length; i += ROWS)
    await transaction.insert(changes).values(rows.slice(i, i + ROWS));
}

function differing(before: Content | null, after: Content | null, always: readonly string[]) {
  if (before === null || after === null) return { before, after };
  const names = Object.keys({ ...before, ...after }).filter(
    (name) => always.includes(name) || !isDeepStrictEqual(before[name], after[name]),
  );
  const pick = (from: Content) => Object.fromEntries(names.map((name) => [name, from[name] ?? null]));
  return { before: pick(before), after: pick(after) };
}
