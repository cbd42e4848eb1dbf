import type { RefusedRow } from '#db/queries/copy-refused-lines.ts';
import type { ReadingColumns } from '#db/queries/reading-columns.ts';
import { checkReading } from './check-reading.ts';
import { type Line, type LineError, RAW_KEPT_CHARACTERS } from './line.ts';
import { noteUnknownFields, type UnknownFields } from './note-unknown-fields.ts';
import type { PlainBlock } from './plain/plain-rows.ts';
import { takeColumns } from './spare-columns.ts';
import { toPlainText } from './to-plain-text.ts';

/** So many lines are stored in one transaction: many, since each vehicle in a batch has its price. */
const MOST_LINES = 20_000;
/** So many of the beginning of a body that pauses, so that something of it is soon kept. */
const FIRST_LINES = 5000;
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
  isFirst: boolean;
}

export const newBatch = (unknownFields: UnknownFields): Batch => ({
  isFirst: true,
  received: 0,
  firstLine: 0,
  lastLine: 0,
  readings: takeColumns(),
  refused: [],
  rawCharacters: 0,
  unknownFields,
});

export const isFull = ({ received, rawCharacters }: Batch): boolean =>
  received >= MOST_LINES || rawCharacters >= BATCH_RAW_CHARACTERS;

/** Whether it should be stored already if nothing more comes for a while. */
export const isBeginning = ({ received, isFirst }: Batch): boolean => isFirst && received >= FIRST_LINES;

/** The next one of a body. */
export const nextBatch = ({ unknownFields }: Batch): Batch => ({
  ...newBatch(unknownFields),
  isFirst: false,
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
