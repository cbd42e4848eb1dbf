import { eq } from 'drizzle-orm';
import { troubleCodes } from '#db/schema/fleet.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';
import { inSetUp } from '#server/services/fleet/set-up.ts';
import { touchSenders } from './touch-senders.ts';

/** Takes a code, in its canonical form, off the list. */
export async function deleteCode(context: Context, code: string): Promise<void> {
  await inSetUp(context.db, async (transaction) => {
    const gone = await transaction.delete(troubleCodes).where(eq(troubleCodes.code, code)).returning();
    if (gone.length === 0)
      throw new SlipdriftError(
        'not_found',
        `${code} is not listed. Nothing was changed; GET /api/codes has the list.`,
      );
    await touchSenders(transaction, new Set([code]));
  });
}
