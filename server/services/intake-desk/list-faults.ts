import { countLines, listFaults as readFaults } from '#db/queries/intake-desk/list-faults.ts';
import type { Faults, FaultsQuery } from '#server/contract/intake.ts';
import type { Context } from '#server/services/context.ts';
import { requireAllDepots } from '#server/services/sight.ts';
import { nameSenders } from './name-senders.ts';

/** Refused lines by what is wrong with them, most lines first. */
export async function listFaults({ db, actor }: Context, query: FaultsQuery): Promise<Faults> {
  requireAllDepots(actor, 'Refused lines, which may be of any vehicle,');
  const [groups, total] = await Promise.all([readFaults(db, query), countLines(db, query)]);
  const nameSender = await nameSenders(
    db,
    groups.flatMap(({ senders }) => senders),
  );
  return {
    total,
    groups: groups.map((row) => ({
      fault: row.fault,
      field: row.errors[0]?.field ?? '',
      message: row.errors[0]?.message ?? '',
      lines: row.lines,
      receipts: row.receipts,
      senders: row.senders.flatMap((id) => nameSender(id) ?? []),
      first_at: row.firstAt.toISOString(),
      newest_at: row.newestAt.toISOString(),
      example: { id: row.id, line: row.line, raw: row.raw },
    })),
  };
}
