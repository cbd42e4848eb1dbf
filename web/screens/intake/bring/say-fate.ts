import type { DeliveryReply } from '#server/contract/receipts.ts';
import { formatWhole } from '#web/format/format-number.ts';

/** What came of a delivery: '1,204 readings stored, 3 there already, 6 lines refused and kept.' */
export function sayReply({ stored, duplicate, conflicting, refused }: DeliveryReply): string {
  const counted = (n: number, one: string, several: string) => `${formatWhole(n)} ${n === 1 ? one : several}`;
  const parts = [`${counted(stored, 'reading', 'readings')} stored`];
  if (duplicate > 0)
    parts.push(
      `${formatWhole(duplicate)} there already${conflicting > 0 ? `, of them ${formatWhole(conflicting)} with another content; the first stays` : ''}`,
    );
  if (refused > 0) parts.push(`${counted(refused, 'line', 'lines')} refused and kept`);
  return `${parts.join(parts.some((part) => part.includes(';')) ? '; ' : ', ')}.`;
}

/** How much of a file has left, for who reads and who listens. */
export function saySent(sent: number, size: number): string {
  if (sent >= size) return 'sent; being read and stored';
  return `${formatWhole(Math.floor((100 * sent) / size))}\u00a0% sent`;
}
