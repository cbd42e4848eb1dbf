import { type Database, rawClient } from '#db/client.ts';
import { copyRows } from './copy-rows.ts';
import { toCopyText } from './to-copy-text.ts';

export interface RefusedRow {
  line: number;
  raw: string;
  errors: { field: string; message: string }[];
  /** unit number where the line named one */
  unit: string | null;
}

export async function copyRefusedLines(
  transaction: Database,
  receipt: string,
  lines: readonly RefusedRow[],
): Promise<void> {
  if (lines.length === 0) return;
  const rows = lines.map(({ line, raw, errors, unit }) => {
    const cells = [
      toCopyText(raw),
      toCopyText(JSON.stringify(errors)),
      unit === null ? '\\N' : toCopyText(unit),
      toCopyText(nameFault(errors)),
    ];
    return `${receipt}\t${line}\t${cells.join('\t')}\n`;
  });
  await copyRows(
    rawClient(transaction),
    'refused_lines (receipt, line, raw, errors, unit, fault) from stdin',
    rows.join(''),
  );
}

/** What a message says of its own line alone: where in it, or by which clock. */
const OF_ONE_LINE = /, whose clock says \S+| at character \d+/g;

/** The first error as one text: lines with the same fault have the same. */
export const nameFault = ([first]: RefusedRow['errors']): string =>
  first === undefined ? '' : `${first.field} ${first.message.replaceAll(OF_ONE_LINE, '')}`.trim();
