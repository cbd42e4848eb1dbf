import { BodyFault } from './body-fault.ts';
import { type CsvColumns, readCsvHeader } from './csv-columns.ts';
import { createRecordJoiner } from './csv-records.ts';
import { toCsvValue } from './csv-values.ts';
import { badLine, goodLine, type Line } from './line.ts';
import type { ReadNotes } from './read-with.ts';
import { splitCells } from './split-cells.ts';
import { splitLines, type TextLine } from './split-lines.ts';

/** Comma-separated values with a header line of our field names (RFC 4180); the line is that in the file. */
export async function* readCsv(
  chunks: AsyncIterable<Buffer>,
  ignoreUnknown: boolean,
  notes: ReadNotes,
): AsyncGenerator<Line[]> {
  const joiner = createRecordJoiner();
  let columns: CsvColumns | null = null;
  const read = (records: TextLine[]): Line[] => {
    const lines: Line[] = [];
    for (const record of records) {
      if (record.fault === null && record.text.trim() === '') continue;
      if (columns === null) {
        columns = readHeader(record, ignoreUnknown);
        notes.readWith = { form: 'csv', columns };
      } else lines.push(readCsvRecord(columns, record));
    }
    return lines;
  };
  try {
    for await (const block of splitLines(chunks)) {
      const lines = read(joiner.push(block));
      if (lines.length > 0) yield lines;
    }
  } catch (error) {
    const lines = columns === null ? [] : read(joiner.end());
    if (lines.length > 0) yield lines;
    throw error;
  }
  const lines = read(joiner.end());
  if (lines.length > 0) yield lines;
  if (columns === null)
    throw new BodyFault('body_empty', 'The body is empty. Send a header line and one reading a line.');
}

function readHeader(record: TextLine, ignoreUnknown: boolean): CsvColumns {
  if (record.fault !== null)
    throw new BodyFault('body_broken', `The header, line ${record.line}, ${record.fault}.`);
  return readCsvHeader(record.line, splitCells(record.text) ?? [record.text], ignoreUnknown);
}

export function readCsvRecord(columns: CsvColumns, { line, text, fault }: TextLine): Line {
  if (fault !== null) return badLine(line, text, fault);
  const cells = splitCells(text);
  if (cells === null) return badLine(line, text, 'has a quote where none may be');
  if (cells.length !== columns.length)
    return badLine(line, text, `has ${cells.length} cells, but the header names ${columns.length}`);
  return goodLine(line, text, toCsvValue(columns, cells));
}
