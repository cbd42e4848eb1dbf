import { listKeptLines } from '#db/queries/intake-desk/kept-lines.ts';
import { settleLines } from '#db/queries/intake-desk/settle-lines.ts';
import type { LineStateChange, LineStateReply } from '#server/contract/intake.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { requireAllDepots } from '#server/services/sight.ts';

const LINES_AT_ONCE = 5000;

/** Lays refused lines aside after somebody looked at them, or opens them again. Lines that were let in stay so. */
export async function changeLineStates(ctx: Context, change: LineStateChange): Promise<LineStateReply> {
  requireAllDepots(ctx.actor, 'Laying refused lines aside');
  const { ids, fault, receipt, sender, state, note } = change;
  const from = state === 'open' ? 'laid_aside' : 'open';
  let changed = 0;
  for (let afterId: number | undefined; ; ) {
    const filter = { ids, fault, receipt, sender, state: from, afterId } as const;
    const rows = await listKeptLines(ctx.db, filter, LINES_AT_ONCE);
    if (rows.length === 0) return { changed };
    afterId = rows.at(-1)?.line.id;
    changed += await ctx.db.transaction(async (transaction) => {
      const settled = await settleLines(
        transaction,
        rows.map(({ line }) => line.id),
        { from: [from], state, at: ctx.now(), by: ctx.actor.name, receipt: null },
      );
      const done = new Set(settled);
      const byFault = new Map<string, number>();
      for (const { line } of rows)
        if (done.has(line.id)) byFault.set(line.fault, (byFault.get(line.fault) ?? 0) + 1);
      const action = state === 'open' ? 'opened_again' : 'laid_aside';
      await noteChanges(
        transaction,
        ctx,
        [...byFault].map(([subjectId, lines]) => ({
          action,
          subject: 'refused_lines',
          subjectId,
          after: { lines, ...(note === '' ? {} : { note }) },
        })),
      );
      return settled.length;
    });
  }
}
