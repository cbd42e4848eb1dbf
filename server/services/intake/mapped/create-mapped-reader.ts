import type { Line } from '#server/services/intake/line.ts';
import { badLine } from '#server/services/intake/line.ts';
import type { ReadNotes, ReadWith } from '#server/services/intake/read-with.ts';
import type { TextLine } from '#server/services/intake/split-lines.ts';
import { createLongReader } from './create-long-reader.ts';
import { createWideReader } from './create-row-reader.ts';
import { placeColumns } from './find-columns.ts';
import { noDayFollower } from './follow-days.ts';

type MappedWith = Extract<ReadWith, { form: 'mapped' }>;

export interface MappedReader {
  /** `cells` of the record; null where it has none */
  read(record: TextLine, cells: string[] | null): Line[];
  /** moments that are still open */
  end(): Line[];
}

/** Reads the rows below a header, one after the other. */
export function createMappedReader(readWith: MappedWith, headerLine: number, notes: ReadNotes): MappedReader {
  const { mapping, given, header } = readWith;
  const columns = placeColumns(mapping, header, headerLine);
  const days = readWith.severalDays ? noDayFollower : undefined;
  const named = mapping.header ? header.findLastIndex((name, i) => name !== `column ${i + 1}`) + 1 : 0;
  const least = Math.max(named, ...columns.map(({ index }) => index + 1));
  const sayWidth = (cells: readonly string[]): string | null => {
    if (cells.length === header.length) return null;
    const isShort = cells.length < least;
    if (!isShort && cells.slice(header.length).every((cell) => cell.trim() === '')) return null;
    const whose = mapping.header ? 'the header names' : 'the first row has';
    return `has ${cells.length} cells, but ${whose} ${header.length}`;
  };
  const wide = mapping.layout === 'wide' ? createWideReader(mapping, given, columns, days) : null;
  const long = wide === null ? createLongReader(mapping, given, columns, notes.leftOut, days) : null;
  return {
    read({ line, text, fault }, cells) {
      if (notes.rows !== null) notes.rows += 1;
      const wrong = fault ?? (cells === null ? 'has a quote where none may be' : sayWidth(cells));
      if (wrong !== null || cells === null) return [badLine(line, text, wrong ?? '')];
      const lines = wide === null ? (long?.read(line, text, cells) ?? []) : [wide.read(line, text, cells)];
      readWith.severalDays = (wide ?? long)?.severalDays() ?? false;
      return lines;
    },
    end: () => long?.end() ?? [],
  };
}
