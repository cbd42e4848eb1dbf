import type { FieldError } from '#server/contract/problems.ts';
import { UNITS_MARK } from '#server/contract/set-up-files/set-up-column.ts';
import type { SetUpFile } from '#server/contract/set-up-files/set-up-files.ts';
import { createNameTest, type MatchedColumn, matchHeader } from './match-header.ts';
import { readCell } from './read-cell.ts';
import { readTable, type TableRow } from './read-table.ts';

export interface FileInput {
  line: number;
  /** as JSON would bring it; a cell that is empty leaves its field out */
  input: Record<string, unknown>;
}

export interface FileInputs {
  matched: MatchedColumn[];
  inputs: FileInput[];
  /** of lines that are not among the inputs */
  faults: FieldError[];
  /** lines with data */
  lines: number;
}

/** The lines of a set-up file as elements of the call with JSON. */
export function readInputs(file: SetUpFile, bytes: Uint8Array): FileInputs {
  const table = readTable(bytes, createNameTest(file.columns));
  const matched = matchHeader(table.header, file.columns);
  const rows = table.rows.filter((row) => !saysUnits(row, matched, file));
  const faults = [...table.faults];
  const inputs = rows.flatMap((row) => {
    const read = readRow(row, matched, file, table.separator);
    faults.push(...read.faults.map((fault) => ({ line: row.line, ...fault })));
    return read.faults.length > 0 ? [] : [{ line: row.line, input: read.input }];
  });
  return { matched, inputs, faults, lines: rows.length + table.faults.length };
}

const saysUnits = ({ cells }: TableRow, matched: readonly MatchedColumn[], { columns }: SetUpFile): boolean =>
  cells[matched.findIndex(({ column }) => column === columns[0])] === UNITS_MARK;

function readRow(
  { cells }: TableRow,
  matched: readonly MatchedColumn[],
  { columns }: SetUpFile,
  separator: string,
) {
  const faults: FieldError[] = [];
  const complain = (field: string, message: string) => faults.push({ field, message });
  const input: Record<string, unknown> = {};
  const given = new Map<string, string>();
  const cleared = new Map<string, string>();
  for (const [index, match] of matched.entries()) {
    const cell = cells[index] ?? '';
    if (cell === '') continue;
    const { name, column } = match;
    const other = given.get(column.name);
    if (other !== undefined) {
      complain(name, `and ${other} are both given; give one of them`);
      continue;
    }
    given.set(column.name, name);
    const read = readCell(match, cell, separator);
    if ('fault' in read) {
      complain(name, read.fault);
      continue;
    }
    const [field, part] = column.path;
    if (part === undefined) input[field] = read.value;
    else if (read.value === null && column.clears) cleared.set(field, name);
    else input[field] = { ...(input[field] as object | undefined), [part]: read.value };
  }
  for (const { name, also, needed } of columns)
    if (needed && !given.has(name))
      complain(
        matched.find(({ column }) => column.name === name)?.name ?? name,
        `is missing${also === undefined ? '' : ` (or ${also.name})`}`,
      );
  for (const [group, name] of cleared) {
    if (input[group] === undefined) input[group] = null;
    else complain(name, `takes all of ${group} away, but this line also gives a figure of it`);
  }
  return { input, faults };
}
