import type { FieldError } from '#server/contract/problems.ts';
import type { Imported } from './import-target.ts';

const number = new Intl.NumberFormat('en');
const linesOf = (n: number): string => `${number.format(n)} ${n === 1 ? 'line' : 'lines'}`;

/** What became of a file, as lines for a person. */
export function describeImport(name: string, { reply, fault }: Imported, seconds: number): string[] {
  const { received, stored, duplicate, conflicting, refused, receipt } = reply;
  const other =
    conflicting === 0 ? '' : ` (${number.format(conflicting)} of them with another content; the first stays)`;
  const counts = `${number.format(stored)} stored, ${number.format(duplicate)} there already${other}, ${number.format(refused)} refused`;
  // Rows of a long layout: several make a reading.
  const { rows } = reply;
  const read =
    rows === undefined
      ? linesOf(received)
      : `${number.format(rows)} rows, ${number.format(received)} readings or refused rows`;
  const lines = [`${name}: ${read}, ${counts}, in ${seconds.toFixed(1)} s.`];
  lines.push(...reply.refusals.map((refusal) => `  ${describeRefusal(refusal)}`));
  if (refused > 0) lines.push(`  All refused lines are kept: GET /api/receipts/${receipt}`);
  for (const unknown of reply.unknown_fields)
    lines.push(
      rows === undefined
        ? `  ${unknown.field} is not a known field and was left out of ${linesOf(unknown.lines)}`
        : `  ${unknown.field} is not taken by the mapping: ${linesOf(unknown.lines)} left out`,
    );
  if (fault !== null) lines.push(`  It was not read to its end. ${fault}`);
  return lines;
}

export const describeRefusal = ({ line, field, message }: FieldError): string =>
  `${line === undefined ? '' : `line ${line}: `}${field === '' ? '' : `${field} `}${message}`;
