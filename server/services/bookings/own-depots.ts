import { asc } from 'drizzle-orm';
import { depots } from '#db/schema/fleet.ts';
import type { Context } from '#server/services/context.ts';
import { isWithin } from '#server/services/fleet/other-depots.ts';
import { refuse, wrong } from './objection.ts';

/** Depots that the one who asks works for, in order of their names; or the one that is asked for, which must be one. */
export async function listOwnDepots(ctx: Context, only: string | undefined) {
  const all = await ctx.db.select().from(depots).orderBy(asc(depots.name), asc(depots.id));
  if (only === undefined) return all.filter(({ id }) => isWithin(ctx, id));
  const found = all.filter(({ id }) => id === only);
  if (found.length === 0) throw refuse(wrong('depot', `No depot '${only}' is known.`));
  if (isWithin(ctx, only)) return found;
  throw refuse({
    code: 'not_allowed',
    field: 'depot',
    message: `You do not work for ${found[0]?.name ?? only}.`,
  });
}
