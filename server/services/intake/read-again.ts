import type { Line } from './line.ts';
import { readMappedAgain } from './mapped/read-mapped-again.ts';
import { parseJsonLine } from './parse-json-line.ts';
import { readCsvRecord } from './read-csv.ts';
import type { ReadWith } from './read-with.ts';

/** One raw line that was kept, read anew: as it came, or as somebody corrected it. */
export function readAgain(readWith: ReadWith, raw: string): Line {
  if (readWith.form === 'json') return parseJsonLine(1, raw);
  if (readWith.form === 'csv') return readCsvRecord(readWith.columns, { line: 1, text: raw, fault: null });
  return readMappedAgain(readWith, raw);
}
