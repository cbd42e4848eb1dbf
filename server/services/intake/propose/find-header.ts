import { cutFigure } from '#server/services/intake/mapped/read-figure.ts';
import { createTimeTextReader } from '#server/services/intake/mapped/read-time-text.ts';
import { unitOf } from '#server/services/intake/mapped/unit-words.ts';
import { type SampleRecord, widthOf } from './cut-table.ts';

export interface FoundHeader {
  skipLines: number;
  header: boolean;
  /** index of the record that names the columns, or is the first row */
  at: number;
  /** units in the line below the names, by column; null where that line is a row as any other */
  units: string[] | null;
}

const LOOKED_AT = 60;
const MOST_SKIPPED_LINES = 100;

/** Where the table begins: the first line as wide as most are; it names the columns where no cell of it is a figure or a time. */
export function findHeader(records: readonly SampleRecord[]): FoundHeader {
  const looked = records.slice(0, LOOKED_AT);
  const counts = new Map<number, number>();
  for (const record of looked) counts.set(record.cells.length, (counts.get(record.cells.length) ?? 0) + 1);
  const [usual = 1] = [...counts].toSorted((a, b) => b[1] - a[1] || b[0] - a[0])[0] ?? [];
  const found = looked.findIndex(
    (record) => record.cells.length === usual && widthOf(record) > Math.min(usual - 1, usual / 2),
  );
  const at = Math.max(0, found);
  const first = looked[at];
  const header = first !== undefined && !first.cells.some(isValue);
  const below = header ? looked[at + 1] : undefined;
  const filled = below?.cells.map((cell) => cell.replace(/^[[(](.*)[\])]$/, '$1')) ?? [];
  const named = filled.filter((cell) => cell !== '');
  const isUnits = named.length > 1 && named.every((cell) => unitOf(cell) !== undefined || cell === '-');
  return {
    skipLines: Math.min(MOST_SKIPPED_LINES, (first?.line ?? 1) - 1),
    header,
    at,
    units: isUnits ? filled : null,
  };
}

const readTime = createTimeTextReader('dmy');
const isValue = (cell: string): boolean =>
  /^[+\-−]?[.,]?\d/.test(cell) && (cutFigure(cell, '.') !== null || readTime(cell) !== null);
