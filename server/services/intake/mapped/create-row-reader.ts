import type { Given, MappedField, Mapping } from '#server/contract/mappings.ts';
import type { Line, LineError } from '#server/services/intake/line.ts';
import { type CellReader, createCellReader, createMissingTest } from './create-cell-reader.ts';
import { createTimeReader, type TimeReader } from './create-time-reader.ts';
import type { PlacedColumn } from './find-columns.ts';
import type { DayFollower } from './follow-days.ts';
import { vehicleOfFile } from './vehicle-of-file.ts';

export interface MappedRow {
  vehicle: string;
  /** ms since 1970; null where it was at fault */
  atMs: number | null;
  errors: LineError[];
}

/** What a row of either layout says first: whose it is, and when. */
export function createRowStart(
  mapping: Mapping,
  given: Given,
  columns: readonly PlacedColumn[],
  days?: DayFollower,
) {
  const place = (take: string) => columns.find(({ takes }) => takes === take)?.index ?? -1;
  const timeColumn = columns.find(({ takes }) => takes === 'time' || takes === 'clock');
  const timeAt = timeColumn?.index ?? -1;
  const dateAt = place('date');
  const vehicleAt = place('vehicle');
  const ofFile = mapping.vehicle === 'column' ? '' : (vehicleOfFile(mapping.vehicle, given) ?? '');
  const isMissing = createMissingTest(mapping.missing);
  const time: TimeReader = createTimeReader(mapping, given, timeColumn?.unit ?? null, days);
  const cellAt = (cells: readonly string[], at: number): string => {
    const cell = cells[at]?.trim() ?? '';
    return isMissing(cell) ? '' : cell;
  };
  const start = (cells: readonly string[]): MappedRow => {
    const vehicle = vehicleAt < 0 ? ofFile : cellAt(cells, vehicleAt);
    const timeCells = { time: cellAt(cells, timeAt), date: dateAt < 0 ? '' : cellAt(cells, dateAt) };
    const atMs = time.read(timeCells, vehicle);
    const errors: LineError[] = vehicle === '' ? [{ field: 'vehicle', message: 'is missing' }] : [];
    if (typeof atMs === 'number') return { vehicle, atMs, errors };
    errors.push({ field: 'at', message: atMs });
    return { vehicle, atMs: null, errors };
  };
  return { start, cellAt, severalDays: time.severalDays };
}

/** Reads rows that hold a moment each. What a reading must have, and the bounds of its figures, is checked later as of any line. */
export function createWideReader(
  mapping: Mapping,
  given: Given,
  columns: readonly PlacedColumn[],
  days?: DayFollower,
) {
  const { start, cellAt, severalDays } = createRowStart(mapping, given, columns, days);
  const fields: { index: number; column: string; field: MappedField; read: CellReader }[] = [];
  for (const { index, column, takes, unit } of columns)
    if (isFigure(takes))
      fields.push({ index, column, field: takes, read: createCellReader(takes, unit, mapping.decimal) });
  const read = (line: number, raw: string, cells: readonly string[]): Line => {
    const { vehicle, atMs, errors } = start(cells);
    const value: Record<string, unknown> = {};
    if (vehicle !== '') value.vehicle = vehicle;
    if (atMs !== null) value.at = new Date(atMs).toISOString();
    for (const { index, column, field, read: readCell } of fields) {
      const cell = cellAt(cells, index);
      if (cell === '') continue;
      const found = readCell(cell);
      if (typeof found === 'string') errors.push({ field, message: `${found}, in the column '${column}'` });
      else value[field] = found;
    }
    return { line, raw, value, errors: errors.length === 0 ? null : errors };
  };
  return { read, severalDays };
}

const roles = new Set(['vehicle', 'time', 'date', 'clock', 'name', 'value', 'unit']);
const isFigure = (takes: string): takes is MappedField => !roles.has(takes);
