import { fleetSettings } from '#db/schema/fleet.ts';
import type { Thresholds } from '#server/contract/settings.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { changedFields, inSetUp } from '#server/services/fleet/set-up.ts';
import { readThresholds } from './read-thresholds.ts';

/** Stores where grades begin. The next assessment ranks the fleet by it, whether or not a reading came. */
export async function setThresholds(ctx: Context, after: Thresholds): Promise<Thresholds> {
  return inSetUp(ctx.db, async (transaction) => {
    const before = await readThresholds(transaction);
    if (changedFields(before, after).length === 0) return after;
    const set = { name: 'thresholds' as const, value: after, changedAt: ctx.now() };
    await transaction
      .insert(fleetSettings)
      .values(set)
      .onConflictDoUpdate({ target: fleetSettings.name, set });
    await noteChanges(transaction, ctx, [
      { action: 'changed', subject: 'thresholds', subjectId: 'fleet', before, after },
    ]);
    return after;
  });
}
