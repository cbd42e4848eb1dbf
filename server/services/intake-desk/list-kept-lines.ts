import { countKeptLines, listKeptLines as readLines } from '#db/queries/intake-desk/kept-lines.ts';
import type { KeptLines, RefusedLinesQuery } from '#server/contract/intake.ts';
import type { Context } from '#server/services/context.ts';
import { requireAllDepots } from '#server/services/sight.ts';
import { nameSenders } from './name-senders.ts';
import { fieldsOf, readKeptLine, readWithOf } from './read-kept-line.ts';

/** Refused lines of a fault, a receipt or a sender, with the fields that can be read of them. */
export async function listKeptLines({ db, actor }: Context, query: RefusedLinesQuery): Promise<KeptLines> {
  requireAllDepots(actor, 'Refused lines, which may be of any vehicle,');
  const { after_id: afterId, limit, ...filter } = query;
  const [rows, total] = await Promise.all([
    readLines(db, { ...filter, afterId }, limit),
    countKeptLines(db, filter),
  ]);
  const nameSender = await nameSenders(
    db,
    rows.map(({ sender }) => sender),
  );
  return {
    total,
    rows: rows.map((row) => {
      const { line, sender, file } = row;
      return {
        id: line.id,
        receipt: line.receipt,
        sender: nameSender(sender),
        file,
        line: line.line,
        raw: line.raw,
        errors: line.errors,
        fault: line.fault,
        at: line.at.toISOString(),
        state: line.state,
        settled_at: line.settledAt?.toISOString() ?? null,
        settled_by: line.settledBy,
        let_in_receipt: line.letInReceipt,
        readable: readWithOf(row) !== null,
        reading: fieldsOf(readKeptLine(row)),
      };
    }),
  };
}
