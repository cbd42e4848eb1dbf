import { eq } from 'drizzle-orm';
import { troubleCodes } from '#db/schema/fleet.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { inSetUp } from '#server/services/fleet/set-up.ts';
import { toContent } from './set-up-codes.ts';
import { touchSenders } from './touch-senders.ts';

/** Takes a code, in its canonical form, off the list. */
export async function deleteCode(context: Context, code: string): Promise<void> {
  await inSetUp(context.db, async (transaction) => {
    const [gone] = await transaction.delete(troubleCodes).where(eq(troubleCodes.code, code)).returning();
    if (gone === undefined)
      throw new SlipdriftError(
        'not_found',
        `${code} is not listed. Nothing was changed; GET /api/codes has the list.`,
      );
    await noteChanges(transaction, context, [
      { action: 'deleted', subject: 'code', subjectId: code, before: toContent(gone) },
    ]);
    await touchSenders(transaction, new Set([code]));
  });
}
