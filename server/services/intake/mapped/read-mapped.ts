import type { Given, Mapping } from '#server/contract/mappings.ts';
import { BodyFault } from '#server/services/intake/body-fault.ts';
import { createRecordJoiner } from '#server/services/intake/csv-records.ts';
import { badLine, type Line, MOMENT_BREAKS_OFF } from '#server/services/intake/line.ts';
import type { ReadNotes } from '#server/services/intake/read-with.ts';
import { splitCells } from '#server/services/intake/split-cells.ts';
import { splitLines, type TextLine } from '#server/services/intake/split-lines.ts';
import { checkMapping, findLacking } from './check-mapping.ts';
import { createMappedReader, type MappedReader } from './create-mapped-reader.ts';
import { decodeWindows1252 } from './decode-windows-1252.ts';
import { nameColumns } from './find-columns.ts';
import { LackingError } from './lacking-error.ts';

export interface MappedBody {
  mapping: Mapping;
  given: Given;
}

/** Separated values of whatever form, as a mapping says; the line is that in the file, of a moment its first. */
export async function* readMapped(
  chunks: AsyncIterable<Buffer>,
  { mapping, given }: MappedBody,
  notes: ReadNotes,
): AsyncGenerator<Line[]> {
  const lacking = [...checkMapping(mapping), ...findLacking(mapping, given)];
  if (lacking.length > 0) throw new LackingError(lacking);
  const joiner = createRecordJoiner();
  let reader: MappedReader | null = null;
  let handedOn = false;
  let skipsUnits = mapping.header && mapping.units_line;
  const begin = (line: number, cells: string[]): MappedReader => {
    const header = mapping.header ? nameColumns(cells) : cells.map((_, i) => `column ${i + 1}`);
    const readWith = { form: 'mapped' as const, mapping, given, header, severalDays: false };
    notes.readWith = readWith;
    if (mapping.layout === 'long') notes.rows = 0;
    return createMappedReader(readWith, line, notes);
  };
  const read = (records: TextLine[]): Line[] => {
    const lines: Line[] = [];
    for (const record of records) {
      if (record.fault === null && record.text.trim() === '') continue;
      if (reader === null && mapping.header) {
        if (record.fault !== null)
          throw new BodyFault('body_broken', `The header, line ${record.line}, ${record.fault}.`);
        reader = begin(record.line, splitCells(record.text, mapping.separator) ?? [record.text]);
        continue;
      }
      if (skipsUnits) {
        skipsUnits = false;
        continue;
      }
      const cells = record.fault === null ? splitCells(record.text, mapping.separator) : null;
      if (reader === null && cells !== null) reader = begin(record.line, cells);
      if (reader === null)
        lines.push(badLine(record.line, record.text, record.fault ?? 'has a quote where none may be'));
      else lines.push(...readTold(reader, record, cells));
    }
    return lines;
  };
  // Where nothing is stored yet, what no row can be read without ends the reading; later it refuses its row.
  const readTold = (of: MappedReader, record: TextLine, cells: string[] | null): Line[] => {
    try {
      return of.read(record, cells);
    } catch (error) {
      if (!(error instanceof LackingError) || !handedOn) throw error;
      return [{ line: record.line, raw: record.text, value: undefined, errors: error.errors }];
    }
  };
  const skip = (block: TextLine[]): TextLine[] =>
    (block[0]?.line ?? 1) > mapping.skip_lines
      ? block
      : block.filter(({ line }) => line > mapping.skip_lines);
  const bytes = mapping.encoding === 'windows-1252' ? decodeWindows1252(chunks) : chunks;
  try {
    for await (const block of splitLines(bytes)) {
      const lines = read(joiner.push(skip(block)));
      if (lines.length === 0) continue;
      handedOn = true;
      yield lines;
    }
  } catch (error) {
    // What is not whole comes again with the whole body: stored now, it would stand in the way of it.
    if (error instanceof BodyFault && reader !== null) {
      const lines = read(joiner.end());
      const cut = (reader as MappedReader).end().map((moment) => ({
        ...moment,
        errors: [{ field: '', message: MOMENT_BREAKS_OFF }],
      }));
      if (cut.length + lines.length > 0) yield [...cut, ...lines];
    }
    throw error;
  }
  const last = read(joiner.end());
  const closed = (reader as MappedReader | null)?.end() ?? [];
  if (last.length + closed.length > 0) yield [...last, ...closed];
  if (reader === null) throw new BodyFault('body_empty', 'The body is empty, or ends before its first row.');
}
