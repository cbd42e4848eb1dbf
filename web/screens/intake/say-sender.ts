import type { ReceiptFormat, Sender } from '#server/contract/intake.ts';

export const saySender = (sender: Sender | null): string => sender?.name ?? 'nobody known';

export const formatWords: Record<ReceiptFormat, string> = {
  json: 'JSON',
  ndjson: 'JSON lines',
  csv: 'CSV',
  can: 'CAN log',
  corrected: 'refused lines let in',
  other: 'another form',
};
