import { fieldUnits } from '#server/contract/field-units.ts';
import type { FileUnit, Given, MappedField, Mapping } from '#server/contract/mappings.ts';
import type { Line } from '#server/services/intake/line.ts';
import { type CellReader, createCellReader } from './create-cell-reader.ts';
import { createRowStart } from './create-row-reader.ts';
import type { PlacedColumn } from './find-columns.ts';
import type { DayFollower } from './follow-days.ts';
import { createOpenMoments } from './open-moments.ts';
import { unitOf } from './unit-words.ts';

const NAMES_COUNTED = 19;
const OTHERS = '(other names)';

interface NamedField {
  field: MappedField;
  bit: number;
  unit: FileUnit | null;
  read: CellReader;
  /** readers by the unit that a row names */
  readers: Map<string, CellReader | string>;
}

/**
 * Reads rows that hold a value each, and joins those of a vehicle and moment. A bad value refuses its own row, and the rest
 * of its moment goes on.
 */
export function createLongReader(
  mapping: Mapping,
  given: Given,
  columns: readonly PlacedColumn[],
  leftOut: Map<string, number>,
  days?: DayFollower,
) {
  const { start, cellAt, severalDays } = createRowStart(mapping, given, columns, days);
  const place = (take: string) => columns.find(({ takes }) => takes === take)?.index ?? -1;
  const nameAt = place('name');
  const valueAt = place('value');
  const unitAt = place('unit');
  const named = new Map<string, NamedField>();
  for (const [i, { name, field, unit }] of mapping.names.entries())
    named.set(toKey(name), {
      field,
      unit,
      bit: 1 << i,
      read: createCellReader(field, unit, mapping.decimal),
      readers: new Map(),
    });
  const moments = createOpenMoments(mapping.join_within_s * 1000, 2 ** mapping.names.length - 1);

  const leave = (name: string): Line[] => {
    const known = leftOut.has(name) || leftOut.size < NAMES_COUNTED ? name : OTHERS;
    leftOut.set(known, (leftOut.get(known) ?? 0) + 1);
    return [];
  };

  const read = (line: number, raw: string, cells: readonly string[]): Line[] => {
    const name = cellAt(cells, nameAt);
    const taken = named.get(toKey(name));
    if (name !== '' && taken === undefined) return leave(name.slice(0, 64));
    const { vehicle, atMs, errors } = start(cells);
    const refuse = (field: string, message: string): Line[] => [
      { line, raw, value: { vehicle }, errors: [...errors, { field, message }] },
    ];
    if (taken === undefined) return refuse('', 'has no name of its value');
    if (errors.length > 0 || atMs === null) return [{ line, raw, value: { vehicle }, errors }];
    const cell = cellAt(cells, valueAt);
    let value: ReturnType<CellReader> | undefined;
    if (cell !== '') {
      const readCell = unitAt < 0 ? taken.read : readerFor(taken, cellAt(cells, unitAt), mapping);
      value = typeof readCell === 'string' ? readCell : readCell(cell);
      if (typeof value === 'string') return refuse(taken.field, value);
    }
    const found = moments.find(vehicle, atMs, taken.bit);
    if (found !== undefined && (found.seen & taken.bit) !== 0) {
      if (value === undefined || String(found.value[taken.field]) === String(value))
        return moments.add(found, keepAlone(raw), taken.bit);
      return refuse(taken.field, 'comes twice for this moment, with another value');
    }
    const moment = found ?? moments.begin(keepAlone(vehicle), atMs, line);
    if (value !== undefined) moment.value[taken.field] = value;
    return moments.add(moment, keepAlone(raw), taken.bit);
  };
  return { read, end: moments.closeAll, severalDays };
}

const toKey = (name: string): string => name.trim().replaceAll(/\s+/g, ' ').toLowerCase();

function readerFor(taken: NamedField, text: string, { decimal }: Mapping): CellReader | string {
  if (text === '') return taken.read;
  const known = taken.readers.get(text);
  if (known !== undefined) return known;
  const unit = unitOf(text);
  const fits = fieldUnits[taken.field];
  const reader =
    fits.length === 0
      ? taken.read
      : unit === undefined
        ? `has the unit '${text.slice(0, 20)}', which is not known`
        : fits.includes(unit)
          ? createCellReader(taken.field, unit, decimal)
          : `is in ${unit}, which is no unit of this field`;
  if (taken.readers.size < 100) taken.readers.set(text, reader);
  return reader;
}

/** A part of a text keeps the whole of it in memory, a quarter of a megabyte of the body: a copy does not. */
const keepAlone = (text: string): string => ` ${text}`.slice(1);
