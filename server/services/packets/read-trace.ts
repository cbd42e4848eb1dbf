import { setImmediate as nextTurn } from 'node:timers/promises';
import { CsvError, type Parser, parse } from 'csv-parse';
import type { TraceSamples } from '#server/engine/road-trace/trace-model.ts';
import { SlipdriftError } from '#server/errors.ts';
import {
  findTraceColumns,
  isUnitsLine,
  type TraceColumns,
} from '#server/services/road-trace/trace-columns.ts';
import { createTraceRows } from '#server/services/road-trace/trace-rows.ts';
import { sniffTraceText } from '#server/services/road-trace/trace-text.ts';

export const TRACE_LIMIT_BYTES = 64 * 1024 * 1024;
/** 100 rows a second for 2 h 46 min: no road test is longer, and its columns take 80 MB. */
const MOST_ROWS = 1_000_000;
const MOST_HOURS = 24;
/** Parsed at one go: some 10 ms, after which others have their turn. */
const CHUNK_BYTES = 65_536;
const RECORD_LIMIT_BYTES = 65_536;
/** Of so many rows one may be unreadable. */
const ROWS_A_FAULT = 100;

export interface ReadTrace {
  samples: TraceSamples & { tMs: Float64Array; slipRpm: Float64Array; dutyPct: Float64Array };
  rows: number;
  columns: TraceColumns;
  /** what was noticed of the file, in words */
  told: string[];
  /** nothing says whether numbers of time are seconds */
  timeUnitAssumed: boolean;
}

/** Reads the CSV of a recorded road test, a piece at a time, so that nobody else has to wait for it. */
export async function readTrace(bytes: Uint8Array): Promise<ReadTrace> {
  if (bytes.byteLength > TRACE_LIMIT_BYTES)
    throw new SlipdriftError('body_too_large', 'A trace may have 64 MiB at the most. Nothing was stored.');
  const text = sniffTraceText(bytes);
  const decimalComma = text.delimiter !== ',';
  let header: { cells: string[]; line: number } | null = null;
  let rows: ReturnType<typeof createTraceRows> | null = null;
  const takeRecord = (cells: string[], line: number): void => {
    if (header === null) {
      header = { cells, line };
      return;
    }
    if (rows === null) {
      const isUnits = isUnitsLine(cells);
      const columns = findTraceColumns(header.cells, isUnits ? cells : null, header.line);
      rows = createTraceRows(columns, decimalComma);
      if (isUnits) return;
    }
    if (rows.count >= MOST_ROWS) throw refuse(`has more than ${MOST_ROWS.toLocaleString('en')} rows`, line);
    rows.add(cells, line);
  };
  await parseAll(bytes, text, takeRecord);
  if (header === null) throw refuse('is empty');
  const { cells, line } = header as { cells: string[]; line: number };
  // With names and nothing below, what the names lack is told first.
  const all =
    (rows as ReturnType<typeof createTraceRows> | null) ??
    createTraceRows(findTraceColumns(cells, null, line), decimalComma);
  return finish(all, text.encoding);
}

async function parseAll(
  bytes: Uint8Array,
  { encoding, delimiter }: ReturnType<typeof sniffTraceText>,
  takeRecord: (cells: string[], line: number) => void,
): Promise<void> {
  let fault: unknown = null;
  const parser: Parser = parse({
    delimiter,
    encoding,
    bom: true,
    relax_quotes: true,
    relax_column_count: true,
    skip_empty_lines: true,
    max_record_size: RECORD_LIMIT_BYTES,
    // What is taken here is not passed on: no stream of records, no turn of the event loop for each.
    on_record: (cells: string[], { lines }) => {
      if (fault !== null) return null;
      try {
        takeRecord(cells, lines);
      } catch (error) {
        fault = error;
      }
      return null;
    },
  });
  const ended = new Promise<void>((resolve) => {
    parser.on('error', (error) => {
      fault ??= error;
      resolve();
    });
    parser.on('end', resolve);
  });
  parser.resume();
  for (let from = 0; from < bytes.byteLength && fault === null; from += CHUNK_BYTES) {
    parser.write(bytes.subarray(from, from + CHUNK_BYTES));
    await nextTurn();
  }
  if (fault === null) {
    parser.end();
    await ended;
  } else parser.destroy();
  if (fault instanceof CsvError) throw toRefusal(fault);
  if (fault !== null) throw fault;
}

function toRefusal(error: CsvError): SlipdriftError {
  const line = typeof error.lines === 'number' ? error.lines : undefined;
  return refuse(
    error.code === 'CSV_QUOTE_NOT_CLOSED' || error.code === 'CSV_MAX_RECORD_SIZE'
      ? 'opens a quote that is never closed'
      : 'could not be cut into columns',
    line,
  );
}

function finish(rows: ReturnType<typeof createTraceRows>, encoding: 'utf8' | 'latin1'): ReadTrace {
  const { columns, unreadable, faults, told } = rows;
  const all = rows.count + unreadable;
  if (unreadable * ROWS_A_FAULT > all)
    throw new SlipdriftError(
      'invalid_request',
      `${unreadable} of ${all} rows could not be read; one of ${ROWS_A_FAULT} may. Nothing was stored; put the rows right and send the file again.`,
      { errors: faults },
    );
  if (rows.count < 2)
    throw refuse(
      `has ${rows.count === 0 ? 'no row' : 'one row'} below the names of its columns; a trace has many`,
    );
  const samples = rows.samples();
  const [firstMs, lastMs] = [samples.tMs[0] ?? 0, samples.tMs.at(-1) ?? 0];
  if (firstMs === lastMs) throw refuse('has the same time in all its rows', undefined, columns.time?.header);
  if (lastMs - firstMs > MOST_HOURS * 3_600_000)
    throw refuse(
      `spans more than ${MOST_HOURS} h; send the part with the road test`,
      undefined,
      columns.time?.header,
    );
  const first = faults[0];
  if (unreadable > 0)
    told.push(
      `${unreadable} of ${all} rows could not be read and were left out${first === undefined ? '' : `; the first is line ${first.line}: ${first.field} ${first.message}`}.`,
    );
  if (encoding === 'latin1') told.push('The file is not in UTF-8; it was read as Western European text.');
  return { samples, rows: rows.count, columns, told, timeUnitAssumed: rows.timeUnitAssumed };
}

function refuse(message: string, line?: number, field = 'file'): SlipdriftError {
  return new SlipdriftError(
    'invalid_request',
    `The file ${message}${line === undefined ? '' : ` (line ${line})`}. Nothing was stored.`,
    { errors: [{ ...(line === undefined ? {} : { line }), field, message }] },
  );
}
