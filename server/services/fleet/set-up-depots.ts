import { depots } from '#db/schema/fleet.ts';
import type { Depot } from '#server/contract/fleet.ts';
import type { Context } from '#server/services/context.ts';
import { keepLocalTimes } from '#server/services/settings/keep-local-times.ts';
import { findDepotChange, readDepots } from './change-depot.ts';
import {
  actionOf,
  type Change,
  changedFields,
  runSetUp,
  type SetUpChange,
  type SetUpOptions,
  type SetUpOutcome,
} from './set-up.ts';

export async function setUpDepots(
  context: Context,
  body: unknown,
  options: SetUpOptions = {},
): Promise<SetUpOutcome> {
  const elements = readDepots(body, options.lines);
  return runSetUp(context, options, async ({ db: transaction }) => {
    const changes: Change[] = [];
    const noted: SetUpChange[] = [];
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
      noted.push({ ...actionOf(before), subject: 'depot', subjectId: id, before, after, line: element.line });
      if (before !== null && before.time_zone !== timeZone)
        moved.push({ depot: after, from: before.time_zone });
    }
    // After all depots: this locks bookings, and whoever books has locked a depot before.
    for (const { depot, from } of moved)
      noted.push(...(await keepLocalTimes(transaction, context, depot, { from, to: depot.time_zone })));
    return { changes, noted };
  });
}
