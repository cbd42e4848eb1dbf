import type { ColumnTake, FileUnit, Mapping } from '#server/contract/mappings.ts';
import { toPlainText } from '#server/services/intake/to-plain-text.ts';
import { LackingError } from './lacking-error.ts';

export interface PlacedColumn {
  index: number;
  column: string;
  takes: ColumnTake;
  unit: FileUnit | null;
}

/** Names of columns, each once: an empty one is called by its place, a second of one name gets a number. */
export function nameColumns(cells: readonly string[]): string[] {
  const names: string[] = [];
  const taken = new Set<string>();
  for (const [i, cell] of cells.entries()) {
    const words = toPlainText(cell.replaceAll(/\s+/g, ' ').trim().slice(0, 190));
    const plain = words.trim() || `column ${i + 1}`;
    let name = plain;
    for (let n = 2; taken.has(name); n++) name = `${plain} (${n})`;
    taken.add(name);
    names.push(name);
  }
  return names;
}

/** Where the columns of a mapping stand in this file. All that are not there are named at once. */
export function placeColumns(mapping: Mapping, header: readonly string[], line: number): PlacedColumn[] {
  const places = new Map<string, number>();
  for (const [i, name] of header.entries()) if (!places.has(toKey(name))) places.set(toKey(name), i);
  const exact = new Map(header.map((name, i) => [name, i]));
  const placed: PlacedColumn[] = [];
  const errors = [];
  for (const { column, takes, unit } of mapping.columns) {
    const index = exact.get(column) ?? places.get(toKey(column));
    if (index === undefined)
      errors.push({ line, field: takes, message: `is in the column '${column}', which the file has not` });
    else placed.push({ index, column, takes, unit });
  }
  if (errors.length > 0) throw new LackingError(errors);
  return placed;
}

const toKey = (name: string): string => name.trim().replaceAll(/\s+/g, ' ').toLowerCase();
