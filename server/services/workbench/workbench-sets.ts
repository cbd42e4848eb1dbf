import { promisify } from 'node:util';
import { gunzip, gzip } from 'node:zlib';
import { and, asc, count, eq, ne } from 'drizzle-orm';
import { people } from '#db/schema/access.ts';
import { workbenchSets } from '#db/schema/life-data.ts';
import {
  mostWorkbenchSets,
  type WorkbenchSet,
  type WorkbenchSetInput,
  type WorkbenchSetLine,
  workbenchChoice,
} from '#server/contract/workbench.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { ownId } from '#server/services/people/own-sessions.ts';

const pack = promisify(gzip);
const unpack = promisify(gunzip);
const { id, name, kind, characters, storedAt, text, choice } = workbenchSets;
const shown = { id, name, kind, characters, storedAt };

type Row = Pick<typeof workbenchSets.$inferSelect, keyof typeof shown>;

/** The tables that the one who asks has kept, by name. */
export async function listWorkbenchSets(ctx: Context): Promise<WorkbenchSetLine[]> {
  const rows = await ctx.db
    .select(shown)
    .from(workbenchSets)
    .where(eq(workbenchSets.person, ownId(ctx)))
    .orderBy(asc(name));
  return rows.map(toLine);
}

/** One of them, with its text as it was pasted. */
export async function getWorkbenchSet(ctx: Context, number: number): Promise<WorkbenchSet> {
  const [row] = await ctx.db
    .select({ ...shown, text, choice })
    .from(workbenchSets)
    .where(and(eq(id, number), eq(workbenchSets.person, ownId(ctx))));
  if (row === undefined) throw notThere();
  const plain = await unpack(row.text);
  return { ...toLine(row), text: plain.toString('utf8'), choice: workbenchChoice.parse(row.choice) };
}

/** Keeps a table under a name. One of the same name gives way only where that was said. */
export async function keepWorkbenchSet(ctx: Context, input: WorkbenchSetInput): Promise<WorkbenchSetLine> {
  const person = ownId(ctx);
  const packed = await pack(input.text);
  return ctx.db.transaction(async (transaction) => {
    // One after the other, so that two at once cannot pass the limit together.
    await transaction.select({ id: people.id }).from(people).where(eq(people.id, person)).for('update');
    const own = eq(workbenchSets.person, person);
    const [before] = await transaction
      .select(shown)
      .from(workbenchSets)
      .where(and(own, eq(name, input.name)));
    if (before !== undefined && !input.replace)
      throw refuse(
        `You keep a table named '${input.name}' already. Nothing was stored; choose another name, or replace that one.`,
      );
    const [others] = await transaction
      .select({ n: count() })
      .from(workbenchSets)
      .where(and(own, ne(name, input.name)));
    if ((others?.n ?? 0) >= mostWorkbenchSets)
      throw refuse(
        `You keep ${mostWorkbenchSets} tables, which is as many as are kept. Delete one first; nothing was stored.`,
      );
    const values = {
      kind: input.choice.kind,
      text: packed,
      characters: input.text.length,
      choice: input.choice,
      storedAt: ctx.now(),
    };
    const [kept] = await transaction
      .insert(workbenchSets)
      .values({ person, name: input.name, ...values })
      .onConflictDoUpdate({ target: [workbenchSets.person, workbenchSets.name], set: values })
      .returning(shown);
    if (kept === undefined) throw new Error('a kept table is answered');
    await note(transaction, ctx, before ?? null, kept);
    return toLine(kept);
  });
}

export async function deleteWorkbenchSet(ctx: Context, number: number): Promise<void> {
  await ctx.db.transaction(async (transaction) => {
    const [gone] = await transaction
      .delete(workbenchSets)
      .where(and(eq(id, number), eq(workbenchSets.person, ownId(ctx))))
      .returning(shown);
    if (gone === undefined) throw notThere();
    await note(transaction, ctx, gone, null);
  });
}

const toLine = ({ storedAt: at, ...row }: Row): WorkbenchSetLine => ({
  id: row.id,
  name: row.name,
  kind: row.kind,
  characters: row.characters,
  stored_at: at.toISOString(),
});

const refuse = (detail: string) => new SlipdriftError('conflict', detail);
const notThere = () => new SlipdriftError('not_found', 'You keep no such table any more.');

/** The text itself is in no log of changes. */
const say = (row: Row | null) => row && { name: row.name, kind: row.kind, characters: row.characters };
const note = (
  transaction: Context['db'],
  ctx: Context,
  before: Row | null,
  after: Row | null,
): Promise<void> =>
  noteChanges(transaction, ctx, [
    {
      action: 'changed',
      subject: 'person',
      subjectId: ownId(ctx),
      before: { workbench_set: say(before) },
      after: { workbench_set: say(after) },
    },
  ]);
