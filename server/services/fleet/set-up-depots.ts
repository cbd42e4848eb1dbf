import { eq } from 'drizzle-orm';
import { depots } from '#db/schema/fleet.ts';
import { type Depot, depotInput, type SetUpReply } from '#server/contract/fleet.ts';
import { type NotedChange, noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { keepLocalTimes } from '#server/services/settings/keep-local-times.ts';
import { readElements, refuseSetUp } from './read-elements.ts';
import { actionOf, type Change, changedFields, countChanges, inSetUp } from './set-up.ts';

export async function setUpDepots(context: Context, body: unknown): Promise<SetUpReply> {
  const elements = readElements(body, depotInput, (depot) => depot.id);
  return inSetUp(context.db, async (transaction) => {
    const changes: Change[] = [];
    const noted: NotedChange[] = [];
    for (const { line, input, value } of elements) {
      const [row] = await transaction.select().from(depots).where(eq(depots.id, value.id));
      const before = row === undefined ? null : toDepot(row);
      const after = before === null ? value : mergeDepot(line, before, input);
      if (before !== null && changedFields(before, after).length === 0) {
        changes.push('unchanged');
        continue;
      }
      changes.push(before === null ? 'created' : 'changed');
      const { id, name, bays, time_zone: timeZone, week, special_days: specialDays } = after;
      const set = { id, name, bays, timeZone, week, specialDays, changedAt: context.now() };
      await transaction.insert(depots).values(set).onConflictDoUpdate({ target: depots.id, set });
      if (before !== null && before.time_zone !== timeZone)
        await keepLocalTimes(transaction, context, id, before.time_zone, timeZone);
      noted.push({ ...actionOf(before), subject: 'depot', subjectId: id, before, after });
    }
    await noteChanges(transaction, context, noted);
    return countChanges(changes);
  });
}

/** Fields left out stay as they are. What is right by itself may not fit what is there. */
function mergeDepot(line: number, before: Depot, input: Record<string, unknown>): Depot {
  const merged = depotInput.safeParse({ ...before, ...input });
  if (merged.success) return merged.data;
  throw refuseSetUp(
    merged.error.issues.map(({ path, message }) => ({ line, field: path.map(String).join('.'), message })),
  );
}

export const toDepot = (row: typeof depots.$inferSelect): Depot => ({
  id: row.id,
  name: row.name,
  bays: row.bays,
  time_zone: row.timeZone,
  week: row.week,
  special_days: row.specialDays,
});
