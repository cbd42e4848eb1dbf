import type { FieldError } from '#server/contract/problems.ts';
import type { SetUpColumn } from '#server/contract/set-up-files/set-up-column.ts';
import { suggestName } from '#server/services/csv/suggest-name.ts';
import type { TableRow } from './read-table.ts';
import { refuseFile } from './refuse-file.ts';

/** One heading of the file. */
export interface MatchedColumn {
  /** as it is called here */
  name: string;
  column: SetUpColumn;
  /** unit of its figures, where that is not the column's own */
  unit: 'mi' | 'degF' | 'mph' | null;
}

/** Case, spaces and hyphens of a heading do not matter. */
const toName = (heading: string): string =>
  heading
    .trim()
    .toLowerCase()
    .replaceAll(/[\s-]+/g, '_');

export const listNames = (columns: readonly SetUpColumn[]): string[] =>
  columns.flatMap(({ name, also }) => (also === undefined ? [name] : [name, also.name]));

/** Whether a heading is one of these columns. */
export function createNameTest(columns: readonly SetUpColumn[]): (heading: string) => boolean {
  const names = new Set(listNames(columns));
  return (heading) => names.has(toName(heading));
}

/** What each heading stands for. Every fault of the header is told at once. */
export function matchHeader(header: TableRow, columns: readonly SetUpColumn[]): MatchedColumn[] {
  const faults: FieldError[] = [];
  const known = new Map(
    columns.flatMap((column): [string, MatchedColumn][] => {
      const { name, also } = column;
      const own: [string, MatchedColumn] = [name, { name, column, unit: null }];
      return also === undefined ? [own] : [own, [also.name, { name: also.name, column, unit: also.unit }]];
    }),
  );
  const complain = (field: string, message: string) => faults.push({ line: header.line, field, message });
  const matched = new Map<string, MatchedColumn>();
  const found = header.cells.map((heading, index) => {
    const match = known.get(toName(heading));
    if (heading === '') complain('', `column ${index + 1} has no heading`);
    else if (match === undefined)
      complain(heading, `is not a known column${suggestName(toName(heading), [...known.keys()])}`);
    else if (matched.has(match.name)) complain(heading, 'is named twice');
    else matched.set(match.name, match);
    return match;
  });
  for (const { name, also, needed } of columns)
    if (needed && !matched.has(name) && (also === undefined || !matched.has(also.name)))
      complain(name, `is missing${also === undefined ? '' : ` (or ${also.name})`}`);
  if (faults.length > 0) throw refuseFile(faults);
  return found.filter((one) => one !== undefined);
}
