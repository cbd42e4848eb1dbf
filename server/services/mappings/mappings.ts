import { asc, count, eq, ne } from 'drizzle-orm';
import { mappings } from '#db/schema/intake.ts';
import { type Mapping, mapping as mappingSchema, type StoredMapping } from '#server/contract/mappings.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { checkMapping } from '#server/services/intake/mapped/check-mapping.ts';
import { requireAllDepots } from '#server/services/sight.ts';

const MOST_MAPPINGS = 500;

type Row = typeof mappings.$inferSelect;

const toStored = ({ name, mapping, changedAt, changedBy }: Row): StoredMapping => ({
  name,
  mapping: mappingSchema.parse(mapping),
  changed_at: changedAt.toISOString(),
  changed_by: changedBy,
});

/** All mappings, by name. */
export async function listMappings({ db, actor }: Context): Promise<StoredMapping[]> {
  requireAllDepots(actor, 'How files are read');
  return (await db.select().from(mappings).orderBy(asc(mappings.name))).map(toStored);
}

export async function findMapping({ db }: Pick<Context, 'db'>, name: string): Promise<Mapping> {
  const [row] = await db.select().from(mappings).where(eq(mappings.name, name));
  if (row !== undefined) return toStored(row).mapping;
  const known = await db.select({ name: mappings.name }).from(mappings).orderBy(asc(mappings.name)).limit(20);
  const names =
    known.length === 0 ? 'None is saved yet.' : `Saved are: ${known.map((one) => one.name).join(', ')}.`;
  throw new SlipdriftError('not_found', `There is no mapping '${name}'. ${names} Nothing was stored.`, {
    errors: [{ field: 'mapping', message: 'is not the name of a mapping' }],
  });
}

/** Keeps a mapping under a name; one of the same name is replaced. One that cannot read a row is refused. */
export async function saveMapping(ctx: Context, name: string, mapping: Mapping): Promise<StoredMapping> {
  requireAllDepots(ctx.actor, 'Saving how files are read');
  const errors = checkMapping(mapping);
  const [first] = errors;
  if (first !== undefined)
    throw new SlipdriftError(
      'invalid_request',
      `This mapping does not fit together: ${first.field} ${first.message}${errors.length > 1 ? ` (and ${errors.length - 1} more)` : ''}. Nothing was saved.`,
      { errors },
    );
  return ctx.db.transaction(async (transaction) => {
    const [before] = await transaction.select().from(mappings).where(eq(mappings.name, name)).for('update');
    const [others] = await transaction.select({ n: count() }).from(mappings).where(ne(mappings.name, name));
    if ((others?.n ?? 0) >= MOST_MAPPINGS)
      throw new SlipdriftError(
        'conflict',
        `${MOST_MAPPINGS} mappings are saved, which is as many as are kept. Delete one first; nothing was saved.`,
      );
    const values = { mapping, changedAt: ctx.now(), changedBy: ctx.actor.name };
    const [saved] = await transaction
      .insert(mappings)
      .values({ name, ...values })
      .onConflictDoUpdate({ target: mappings.name, set: values })
      .returning();
    if (saved === undefined) throw new Error('a saved mapping is answered');
    const after = toStored(saved);
    await noteChanges(transaction, ctx, [
      {
        action: before === undefined ? 'created' : 'changed',
        subject: 'mapping',
        subjectId: name,
        before: before === undefined ? null : toStored(before).mapping,
        after: after.mapping,
      },
    ]);
    return after;
  });
}

/** Deliveries that were read by it keep it: their refused lines can be read again all the same. */
export async function deleteMapping(ctx: Context, name: string): Promise<void> {
  requireAllDepots(ctx.actor, 'Deleting how files are read');
  await ctx.db.transaction(async (transaction) => {
    const [gone] = await transaction.delete(mappings).where(eq(mappings.name, name)).returning();
    if (gone === undefined) throw new SlipdriftError('not_found', `There is no mapping '${name}' any more.`);
    await noteChanges(transaction, ctx, [
      { action: 'deleted', subject: 'mapping', subjectId: name, before: toStored(gone).mapping, after: null },
    ]);
  });
}
