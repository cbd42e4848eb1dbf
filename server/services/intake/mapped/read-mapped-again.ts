import { createRecordJoiner } from '#server/services/intake/csv-records.ts';
import { badLine, type Line } from '#server/services/intake/line.ts';
import { newReadNotes, type ReadWith } from '#server/services/intake/read-with.ts';
import { splitCells } from '#server/services/intake/split-cells.ts';
import { createMappedReader } from './create-mapped-reader.ts';
import { LackingError } from './lacking-error.ts';

/** Reads a kept row again, or the rows of a moment: all of them must come to one reading. */
export function readMappedAgain(readWith: Extract<ReadWith, { form: 'mapped' }>, raw: string): Line {
  const joiner = createRecordJoiner();
  const parts = raw.split('\n').map((text, i) => ({
    line: i + 1,
    text: text.endsWith('\r') ? text.slice(0, -1) : text,
    fault: null,
  }));
  const records = [...joiner.push(parts), ...joiner.end()].filter(({ text }) => text.trim() !== '');
  try {
    const reader = createMappedReader({ ...readWith }, 0, newReadNotes());
    const lines = records.flatMap((record) =>
      reader.read(record, splitCells(record.text, readWith.mapping.separator)),
    );
    lines.push(...reader.end());
    const bad = lines.find(({ errors }) => errors !== null);
    const [first] = lines;
    if (bad !== undefined) return { ...bad, line: 1, raw };
    if (first === undefined) return badLine(1, raw, 'holds nothing that is taken');
    if (lines.length > 1) return badLine(1, raw, `makes ${lines.length} readings, where one is expected`);
    return { ...first, line: 1, raw };
  } catch (error) {
    if (!(error instanceof LackingError)) throw error;
    return { line: 1, raw, value: undefined, errors: error.errors };
  }
}
