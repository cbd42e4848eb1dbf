import { depots } from '#db/schema/fleet.ts';
import type { Depot, SetUpReply } from '#server/contract/fleet.ts';
import { type NotedChange, noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { keepLocalTimes } from '#server/services/settings/keep-local-times.ts';
import { findDepotChange, readDepots } from './change-depot.ts';
import { actionOf, type Change, changedFields, countChanges, inSetUp } from './set-up.ts';

export async function setUpDepots(context: Context, body: unknown): Promise<SetUpReply> {
  const elements = readDepots(body);
  return inSetUp(context.db, async (transaction) => {
    const changes: Change[] = [];
    const noted: NotedChange[] = [];
    const moved: { depot: Depot; from: string }[] = [];
    for (const element of elements) {
      const { before, after } = await findDepotChange(transaction, element);
      if (before !== null && changedFields(before, after).length === 0) {
        changes.push('unchanged');
        continue;
      }
      changes.push(before === null ? 'created' : 'changed');
      const { id, name, bays, time_zone: timeZone, week, special_days: specialDays } = after;
      const set = { id, name, bays, timeZone, week, specialDays, changedAt: context.now() };
      await transaction.insert(depots).values(set).onConflictDoUpdate({ target: depots.id, set });
      noted.push({ ...actionOf(before), subject: 'depot', subjectId: id, before, after });
      if (before !== null && before.time_zone !== timeZone)
        moved.push({ depot: after, from: before.time_zone });
    }
    // After all depots: this locks bookings, and whoever books has locked a depot before.
    for (const { depot, from } of moved)
      noted.push(...(await keepLocalTimes(transaction, context, depot, { from, to: depot.time_zone })));
    await noteChanges(transaction, context, noted);
    return countChanges(changes);
  });
}
