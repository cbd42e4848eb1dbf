import { and, asc, count, eq, ne } from 'drizzle-orm';
import type { z } from 'zod';
import { people } from '#db/schema/access.ts';
import { savedFilters } from '#db/schema/planning.ts';
import { mostSavedFilters, type SavedFilter, type savedFilterRequest } from '#server/contract/ranking.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { ownId } from '#server/services/people/own-sessions.ts';
import { readFilterText } from './read-filter-text.ts';

const { id, name, search } = savedFilters;
const shown = { id, name, search };

/** The filters of the one who asks, by name. */
export const listSavedFilters = (ctx: Context): Promise<SavedFilter[]> =>
  ctx.db
    .select(shown)
    .from(savedFilters)
    .where(eq(savedFilters.person, ownId(ctx)))
    .orderBy(asc(name), asc(id));

/** Keeps a filter under a name; one of the same name is replaced. */
export async function saveFilter(
  ctx: Context,
  request: z.output<typeof savedFilterRequest>,
): Promise<SavedFilter> {
  const person = ownId(ctx);
  const text = readFilterText(request.search);
  return ctx.db.transaction(async (transaction) => {
    // One after the other, so that two at once cannot pass the limit together.
    await transaction.select({ id: people.id }).from(people).where(eq(people.id, person)).for('update');
    const own = eq(savedFilters.person, person);
    const [before] = await transaction
      .select(shown)
      .from(savedFilters)
      .where(and(own, eq(name, request.name)));
    const [others] = await transaction
      .select({ n: count() })
      .from(savedFilters)
      .where(and(own, ne(name, request.name)));
    if ((others?.n ?? 0) >= mostSavedFilters)
      throw new SlipdriftError(
        'conflict',
        `You have ${mostSavedFilters} saved filters, which is as many as are kept. Delete one first; nothing was saved.`,
      );
    const [saved] = await transaction
      .insert(savedFilters)
      .values({ person, name: request.name, search: text, createdAt: ctx.now() })
      .onConflictDoUpdate({ target: [savedFilters.person, savedFilters.name], set: { search: text } })
      .returning(shown);
    if (saved === undefined) throw new Error('a saved filter is answered');
    if (before?.search !== text) await note(transaction, ctx, before ?? null, saved);
    return saved;
  });
}

export async function deleteSavedFilter(ctx: Context, number: number): Promise<void> {
  await ctx.db.transaction(async (transaction) => {
    const [gone] = await transaction
      .delete(savedFilters)
      .where(and(eq(id, number), eq(savedFilters.person, ownId(ctx))))
      .returning(shown);
    if (gone === undefined) throw new SlipdriftError('not_found', 'You have no such saved filter any more.');
    await note(transaction, ctx, gone, null);
  });
}

const note = (
  transaction: Context['db'],
  ctx: Context,
  before: SavedFilter | null,
  after: SavedFilter | null,
): Promise<void> =>
  noteChanges(transaction, ctx, [
    {
      action: 'changed',
      subject: 'person',
      subjectId: ownId(ctx),
      before: { saved_filter: before && { name: before.name, search: before.search } },
      after: { saved_filter: after && { name: after.name, search: after.search } },
    },
  ]);
