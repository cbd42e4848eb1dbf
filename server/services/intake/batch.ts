import type { RefusedRow } from '#db/queries/copy-refused-lines.ts';
import { ReadingColumns } from '#db/queries/reading-columns.ts';
import { checkReading } from './check-reading.ts';
import { type Line, type LineError, RAW_KEPT_CHARACTERS } from './line.ts';
import { noteUnknownFields, type UnknownFields } from './note-unknown-fields.ts';
import type { PlainBlock } from './plain/plain-rows.ts';
import { toPlainText } from './to-plain-text.ts';

/**
 * So many lines are stored in one transaction: fewer of the beginning of a body, so that something is soon kept, more of a
 * long one, since each vehicle in a batch has its price.
 */
const FIRST_LINES = 5000;
const MOST_LINES = 20_000;
const BATCH_RAW_CHARACTERS = 4_194_304;

/** Lines that wait to be stored together. */
export interface Batch {
  received: number;
  /** first and last line of the body in it */
  firstLine: number;
  lastLine: number;
  readings: ReadingColumns;
  refused: RefusedRow[];
  rawCharacters: number;
  unknownFields: UnknownFields;
  /** lines at which it is full */
  most: number;
}

export const newBatch = (unknownFields: UnknownFields, most = FIRST_LINES): Batch => ({
  most,
  received: 0,
  firstLine: 0,
  lastLine: 0,
  readings: new ReadingColumns(),
  refused: [],
  rawCharacters: 0,
  unknownFields,
});

export const isFull = (batch: Batch): boolean =>
  batch.received >= batch.most || batch.rawCharacters >= BATCH_RAW_CHARACTERS;

/** The next one of a body, in the columns of one that is stored, where there is one. */
export const nextBatch = ({ unknownFields }: Batch, spare: ReadingColumns | null): Batch => ({
  ...newBatch(unknownFields, MOST_LINES),
  readings: spare ?? new ReadingColumns(MOST_LINES),
});

export function addToBatch(batch: Batch, line: Line, nowMs: number): void {
  // Moments of a long layout come when they are whole, not in the order of their lines.
  if (batch.received === 0 || line.line < batch.firstLine) batch.firstLine = line.line;
  if (line.line > batch.lastLine) batch.lastLine = line.line;
  batch.received += 1;
  const { reading, errors } =
    line.errors === null ? checkReading(line.value, nowMs) : { reading: null, errors: line.errors };
  if (reading !== null) {
    batch.readings.push(reading.vehicle, reading, line.line);
    noteUnknownFields(batch.unknownFields, line.value as object);
    return;
  }
  const refused = toRefusedRow(line, errors);
  batch.refused.push(refused);
  batch.rawCharacters += refused.raw.length;
}

/** Counts lines that were put among the readings already. */
export function addPlain(batch: Batch, { count, firstLine, lastLine }: PlainBlock): void {
  if (batch.received === 0 || firstLine < batch.firstLine) batch.firstLine = firstLine;
  if (lastLine > batch.lastLine) batch.lastLine = lastLine;
  batch.received += count;
}

function toRefusedRow(line: Line, errors: LineError[]): RefusedRow {
  return {
    line: line.line,
    raw: cut(line.raw),
    errors: errors.map(({ field, message }) => ({
      field: toPlainText(field),
      message: toPlainText(message),
    })),
    unit: unitOf(line.value),
  };
}

function unitOf(value: unknown): string | null {
  if (typeof value !== 'object' || value === null || !('vehicle' in value)) return null;
  const { vehicle } = value;
  if (typeof vehicle !== 'string' || vehicle.trim() === '') return null;
  return toPlainText(vehicle.trim().slice(0, 64));
}

/** The end of what was cut off must not keep the whole of it in memory: a slice does, a copy does not. */
function cut(raw: string): string {
  if (raw.length <= RAW_KEPT_CHARACTERS) return raw;
  const kept = Buffer.from(raw.slice(0, RAW_KEPT_CHARACTERS - 20)).toString();
  return `${kept}… [cut off here]`;
}
