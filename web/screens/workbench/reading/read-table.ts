import { CsvError, parse } from 'csv-parse/browser/esm/sync';
import { guessSeparator, isSeparator } from './guess-separator.ts';
import { guessDecimal, isBlank, readFigure } from './read-figure.ts';
import {
  mostBytes,
  mostColumns,
  mostRows,
  type ReadOptions,
  type Row,
  type Separator,
  type Table,
  TableFault,
} from './table.ts';

const whole = new Intl.NumberFormat('en-GB');
const sampleRows = 200;

/** Cuts a text into rows and names its columns. Throws a TableFault where that cannot be done at all. */
export function readTable(text: string, options: ReadOptions = {}): Table {
  if (text.length > mostBytes) throw tooLarge(text.length);
  const plain = text.replace(/^\ufeff/, '');
  if (plain.trim() === '')
    throw new TableFault('There is nothing in it. Paste a table with two columns or more.');
  if (plain.includes('\u0000'))
    throw new TableFault('This is no text: it has null characters. Save the sheet as CSV and take that.');
  const told = /^sep=(.)\r?\n/.exec(plain);
  const body = told === null ? plain : plain.slice(told[0].length);
  const separator =
    told !== null && isSeparator(told[1] ?? '') ? (told[1] as Separator) : guessSeparator(body);
  const records = cutRecords(body, separator ?? ',', told === null ? 0 : 1);
  const decimal = options.decimal ?? guessDecimal(records.slice(0, sampleRows).flatMap(({ cells }) => cells));
  const hasHeader = options.hasHeader ?? looksLikeHeader(records, decimal);
  const columns = nameColumns(records, hasHeader);
  const rows = hasHeader ? records.slice(1) : records;
  if (rows.length > mostRows) throw tooMany();
  if (rows.length === 0)
    throw new TableFault('There is one line, the names of the columns, and no row below it.');
  return { separator: separator ?? ',', hasHeader, decimal, columns, rows, told: [] };
}

export const tooLarge = (bytes: number): TableFault =>
  new TableFault(
    `It is ${whole.format(Math.ceil(bytes / 1024 / 1024))} MiB; at most ${mostBytes / 1024 / 1024} MiB and ${whole.format(mostRows)} rows are read here. Nothing was read. Take fewer columns, or medians of stretches.`,
  );

const tooMany = (): TableFault =>
  new TableFault(
    `It has more than ${whole.format(mostRows)} rows, which is as many as are read here. Nothing was taken. Thin it, or take medians of stretches.`,
  );

function cutRecords(body: string, separator: Separator, linesBefore: number): Row[] {
  try {
    // With `info` it answers this; its types know only the rows.
    const cut = parse(body, {
      delimiter: separator,
      info: true,
      relax_column_count: true,
      relax_quotes: true,
      skip_empty_lines: true,
      max_record_size: 1_000_000,
      // One row more than may be, and a header: enough to know.
      to: mostRows + 2,
    }) as unknown as { info: { lines: number }; record: string[] }[];
    return cut
      .map(({ info, record }) => ({
        line: info.lines + linesBefore,
        cells: record.map((cell) => cell.trim()),
      }))
      .filter(({ cells }) => cells.some((cell) => cell !== ''));
  } catch (error) {
    throw new TableFault(sayCut(error));
  }
}

function sayCut(error: unknown): string {
  if (error instanceof CsvError && error.code === 'CSV_QUOTE_NOT_CLOSED')
    return 'A quotation mark that is opened is never closed, so the last rows run into each other. Close it, or take it out.';
  if (error instanceof CsvError && error.code === 'CSV_MAX_RECORD_SIZE')
    return 'One row is over 1,000,000 characters. A quotation mark may be opened and never closed.';
  return `It could not be cut into rows: ${error instanceof Error ? error.message : 'no reason was given'}`;
}

/** A first line without a number, over rows of which some have one. A text of words alone has a header too. */
function looksLikeHeader(records: readonly Row[], decimal: Table['decimal']): boolean {
  const [first, ...rest] = records.slice(0, sampleRows);
  if (first === undefined || first.cells.some((cell) => readFigure(cell, decimal) !== null)) return false;
  return rest.length > 0 || first.cells.some((cell) => !isBlank(cell));
}

/** Each name once: a spreadsheet may have two of one name, or none. */
function nameColumns(records: readonly Row[], hasHeader: boolean): string[] {
  const count = Math.max(...records.slice(0, sampleRows).map(({ cells }) => cells.length));
  if (count > mostColumns)
    throw new TableFault(`It has ${whole.format(count)} columns; at most ${mostColumns} can be taken.`);
  const first = hasHeader ? (records[0]?.cells ?? []) : [];
  const names: string[] = [];
  for (let i = 0; i < count; i++) {
    const wanted = first[i]?.replaceAll(/\s+/g, ' ').slice(0, 190) || `column ${i + 1}`;
    let name = wanted;
    for (let n = 2; names.includes(name); n++) name = `${wanted} (${n})`;
    names.push(name);
  }
  return names;
}
