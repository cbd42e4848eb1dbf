import type { KeptLineRow } from '#db/queries/intake-desk/kept-lines.ts';
import { badLine, type Line } from '#server/services/intake/line.ts';
import { readAgain } from '#server/services/intake/read-again.ts';
import type { ReadWith } from '#server/services/intake/read-with.ts';

/** How a kept line is read; null where that was not kept, and cannot be told from the line. */
export function readWithOf({ line, readWith }: KeptLineRow): ReadWith | null {
  if (readWith !== null) return readWith as ReadWith;
  return line.raw.trimStart().startsWith('{') ? { form: 'json' } : null;
}

/** A kept line read anew, as it came or as somebody corrected it. */
export function readKeptLine(row: KeptLineRow, raw: string = row.line.raw): Line {
  const readWith = readWithOf(row);
  if (readWith === null) return badLine(row.line.line, raw, 'cannot be read again: give its fields');
  return { ...readAgain(readWith, raw), line: row.line.line };
}

export const fieldsOf = ({ value }: Line): Record<string, unknown> | null =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
    ? (value as Record<string, unknown>)
    : null;
