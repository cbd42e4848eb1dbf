import { eq } from 'drizzle-orm';
import { troubleCodes } from '#db/schema/fleet.ts';
import type { FieldError } from '#server/contract/problems.ts';
import { troubleCodeInput } from '#server/contract/trouble-codes.ts';
import type { Context } from '#server/services/context.ts';
import { readElements, refuseSetUp } from '#server/services/fleet/read-elements.ts';
import {
  actionOf,
  type Change,
  changedFields,
  runSetUp,
  type SetUpChange,
  type SetUpOptions,
  type SetUpOutcome,
} from '#server/services/fleet/set-up.ts';
import { touchSenders } from './touch-senders.ts';

const SOURCE_UNSAID = 'given by the fleet';

/** Lists codes or changes what is listed; vehicles that have sent one are assessed again where it changes evidence. */
export async function setUpCodes(
  context: Context,
  body: unknown,
  options: SetUpOptions = {},
): Promise<SetUpOutcome> {
  const elements = readElements(body, troubleCodeInput, ({ code }) => code, options.lines);
  return runSetUp(context, options, async ({ db: transaction }) => {
    const changes: Change[] = [];
    const noted: SetUpChange[] = [];
    const errors: FieldError[] = [];
    const touching = new Set<string>();
    for (const { line, value } of elements) {
      const { code } = value;
      const [row] = await transaction.select().from(troubleCodes).where(eq(troubleCodes.code, code));
      const meaning = value.meaning ?? row?.meaning;
      if (meaning === undefined) {
        errors.push({ line, field: 'meaning', message: `is missing: ${code} is not listed yet` });
        continue;
      }
      const after = {
        code,
        meaning,
        source: value.source ?? row?.source ?? SOURCE_UNSAID,
        counts: value.counts ?? row?.counts ?? true,
      };
      if (row !== undefined && changedFields(row, after as typeof row).length === 0) {
        changes.push('unchanged');
        continue;
      }
      changes.push(row === undefined ? 'created' : 'changed');
      if (row?.counts !== after.counts) touching.add(code);
      const set = { ...after, changedAt: context.now() };
      noted.push({
        ...actionOf(row),
        subject: 'code',
        subjectId: code,
        before: row === undefined ? null : toContent(row),
        after,
        line,
      });
      await transaction
        .insert(troubleCodes)
        .values(set)
        .onConflictDoUpdate({ target: troubleCodes.code, set });
    }
    if (errors.length > 0) throw refuseSetUp(errors);
    await touchSenders(transaction, touching);
    return { changes, noted };
  });
}

export const toContent = ({ code, meaning, source, counts }: typeof troubleCodes.$inferSelect) => ({
  code,
  meaning,
  source,
  counts,
});
