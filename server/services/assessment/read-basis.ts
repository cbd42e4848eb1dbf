import { eq, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { platformContexts } from '#db/schema/analysis.ts';
import { platforms } from '#db/schema/fleet.ts';
import type { Context } from '#server/services/context.ts';
import { readFittedLife } from '#server/services/lives/read-fitted-life.ts';
import { readContext } from './learn-platform.ts';

/** What the vehicles of a platform are assessed by. */
export async function readBasis(ctx: Context, name: string) {
  // First: what is learned while the rest is read must not pass for what was read.
  const learnedMark = await readLearnedMark(ctx.db, name);
  const [platform = null] = await ctx.db.select().from(platforms).where(eq(platforms.id, name));
  const context = await readContext(ctx, name);
  const fitted = await readFittedLife(ctx.db, platform?.id ?? null);
  return { platform, context, fitted, learnedMark };
}

/** Another one each time that the platform is learned; null where it never was. */
export async function readLearnedMark(db: Database, name: string): Promise<string | null> {
  const [row] = await db
    .select({ mark: sql<string>`xmin::text` })
    .from(platformContexts)
    .where(eq(platformContexts.platform, name));
  return row?.mark ?? null;
}
