import { CsvError, parse } from 'csv-parse/sync';
import type { FieldError } from '#server/contract/problems.ts';
import { SlipdriftError } from '#server/errors.ts';
import { refuseFile } from './refuse-file.ts';

export interface TableRow {
  /** of the file, from 1 */
  line: number;
  cells: string[];
}

export interface SetUpTable {
  separator: string;
  header: TableRow;
  rows: TableRow[];
  faults: FieldError[];
}

/** As many as one call with JSON takes. */
const MOST_ROWS = 20_000;
const MOST_ROW_CHARACTERS = 65_536;
const SEPARATORS = [',', ';', '\t'];

/** Takes a file apart: UTF-8 with or without its mark; commas, semicolons or tabs; quotes as in RFC 4180. */
export function readTable(bytes: Uint8Array, isName: (cell: string) => boolean): SetUpTable {
  const text = decode(bytes);
  const separator = findSeparator(text, isName);
  const [header, ...rows] = splitRows(text, separator);
  if (header === undefined)
    throw new SlipdriftError(
      'body_empty',
      'The file has no line. Send a header line and a line each. Nothing was changed.',
    );
  if (rows.length > MOST_ROWS)
    throw new SlipdriftError(
      'invalid_request',
      `The file has more than ${MOST_ROWS.toLocaleString('en')} lines. Nothing was changed; send it in parts.`,
    );
  const faults: FieldError[] = [];
  const even = rows.filter(({ line, cells }) => {
    if (cells.slice(header.cells.length).every((cell) => cell === '')) return true;
    const message = `has ${cells.length} cells, but the header names ${header.cells.length}`;
    faults.push({ line, field: '', message });
    return false;
  });
  return { separator, header, rows: even, faults };
}

function decode(bytes: Uint8Array): string {
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff))
    throw notText('is in UTF-16');
  try {
    // The parser would count a line break of two characters within quotes as two lines.
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes).replaceAll(/\r\n?/g, '\n');
  } catch {
    throw notText('is not in UTF-8');
  }
}

const notText = (what: string) =>
  new SlipdriftError(
    'body_broken',
    `The file ${what}. Save it as CSV in UTF-8 and send it again. Nothing was changed.`,
  );

/** The one by which most headings are names that are known; a heading may hold another separator in quotes. */
function findSeparator(text: string, isName: (cell: string) => boolean): string {
  const names = (separator: string) => {
    const [header] = attempt(() => splitRows(text, separator, 1)) ?? [];
    return header?.cells.filter(isName).length ?? 0;
  };
  return SEPARATORS.toSorted((a, b) => names(b) - names(a))[0] ?? ',';
}

function attempt<T>(work: () => T): T | null {
  try {
    return work();
  } catch {
    return null;
  }
}

interface ParsedRow {
  info: { lines: number };
  record: string[];
}

function splitRows(text: string, separator: string, most = MOST_ROWS + 2): TableRow[] {
  try {
    const parsed = parse(text, {
      delimiter: separator,
      record_delimiter: '\n',
      info: true,
      relax_column_count: true,
      skip_empty_lines: true,
      max_record_size: MOST_ROW_CHARACTERS,
      trim: true,
      to: most,
    }) as unknown as ParsedRow[];
    return parsed
      .map(({ info, record }) => ({ line: info.lines - countBreaks(record), cells: record }))
      .filter(({ cells }) => cells.some((cell) => cell !== ''));
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    throw refuseFile([{ line: lineOf(error), field: '', message: explain(error) }]);
  }
}

/** Where the record began: a quoted cell may hold line breaks. */
const countBreaks = (cells: readonly string[]): number =>
  cells.reduce((sum, cell) => sum + (cell.match(/\n/g)?.length ?? 0), 0);

const lineOf = (error: CsvError): number => {
  const { lines } = error as { lines?: unknown };
  return typeof lines === 'number' ? lines : 1;
};

function explain({ code }: CsvError): string {
  if (code === 'CSV_QUOTE_NOT_CLOSED') return 'is the last, and a quote before it is never closed';
  if (code === 'CSV_MAX_RECORD_SIZE') return `is longer than ${MOST_ROW_CHARACTERS} characters`;
  return 'has a quote where none may be: within a quoted cell it is written twice';
}
