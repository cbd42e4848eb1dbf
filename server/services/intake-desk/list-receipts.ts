import {
  type ListedReceiptRow,
  listReceipts as readReceipts,
} from '#db/queries/intake-desk/list-receipts.ts';
import { listSenderIds } from '#db/queries/intake-desk/list-senders.ts';
import type { ListedReceipt, ReceiptFormat, Receipts, ReceiptsQuery } from '#server/contract/intake.ts';
import type { Context } from '#server/services/context.ts';
import { requireAllDepots } from '#server/services/sight.ts';
import { type NameSender, nameSenders } from './name-senders.ts';

/** The content type of a receipt under which refused lines were let in. */
export const CORRECTED_TYPE = 'corrected lines';

/** Deliveries, newest first. */
export async function listReceipts({ db, actor }: Context, query: ReceiptsQuery): Promise<Receipts> {
  requireAllDepots(actor, 'The list of deliveries');
  const filter = {
    sender: query.sender,
    fileText: query.q,
    withRefused: query.with_refused === 'true',
    incomplete: query.incomplete === 'true',
  };
  const [found, senders] = await Promise.all([
    readReceipts(db, filter, { limit: query.limit + 1, offset: query.offset }),
    listSenderIds(db),
  ]);
  const nameSender = await nameSenders(db, [...senders, ...found.map(({ sender }) => sender)]);
  return {
    rows: found.slice(0, query.limit).map((row) => toListed(row, nameSender)),
    more: found.length > query.limit,
    senders: senders.flatMap((id) => nameSender(id) ?? []).sort((a, b) => a.name.localeCompare(b.name, 'en')),
  };
}

export const formatOf = (contentType: string): ReceiptFormat => {
  if (contentType === CORRECTED_TYPE) return 'corrected';
  if (contentType.includes('ndjson')) return 'ndjson';
  if (contentType.includes('json')) return 'json';
  if (contentType.includes('csv')) return 'csv';
  return contentType.includes('candump') || contentType.includes('can-log') ? 'can' : 'other';
};

function toListed(row: ListedReceiptRow, nameSender: NameSender): ListedReceipt {
  const { received, stored, duplicate, conflicting, refused } = row;
  const seconds = row.endedAt === null ? null : (row.endedAt.getTime() - row.at.getTime()) / 1000;
  return {
    receipt: row.id,
    at: row.at.toISOString(),
    seconds: seconds === null ? null : Math.max(0, seconds),
    sender: nameSender(row.sender),
    format: formatOf(row.contentType),
    file: row.file,
    state: row.complete ? 'whole' : row.status === 0 ? 'not_ended' : 'broke_off',
    received,
    stored,
    duplicate,
    conflicting,
    refused,
    refused_open: row.refusedOpen,
  };
}
