import type { ReceiptFormat, Sender } from '#server/contract/intake.ts';

/** A sender by its name, and what it is where the name alone does not say. */
export function saySender(sender: Sender | null): string {
  if (sender === null) return 'nobody known';
  return sender.kind === 'key' ? `key ${sender.name}` : sender.name;
}

export const formatWords: Record<ReceiptFormat, string> = {
  json: 'JSON',
  ndjson: 'JSON lines',
  csv: 'CSV',
  can: 'CAN log',
  corrected: 'refused lines let in',
  other: 'another form',
};
