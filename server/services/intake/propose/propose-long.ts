import type { Doubt, SeenName } from '#server/contract/looks.ts';
import type { Mapping } from '#server/contract/mappings.ts';
import { createMissingTest } from '#server/services/intake/mapped/create-cell-reader.ts';
import { toPlainText } from '#server/services/intake/to-plain-text.ts';
import { type GuessedColumn, guessColumn, isField } from './guess-column.ts';
import type { SampleColumn, SampleTable } from './sample-columns.ts';

const MOST_NAMES = 200;
const LEAST_FIELDS = 2;

export interface NamedCells {
  name: string;
  cells: string[];
}

/** Columns of a long layout: where a column names values of two fields or more, and another holds them. */
export function findLongColumns(
  table: SampleTable,
  guesses: readonly GuessedColumn[],
  decimal: Mapping['decimal'],
): { name: SampleColumn; value: SampleColumn; unit: SampleColumn | null } | null {
  const find = (as: string) => table.columns.find((_, i) => guesses[i]?.as === as);
  const value = find('value');
  if (value === undefined) return null;
  const names = table.columns.filter(
    (column, i) => column !== value && (guesses[i]?.as === 'name' || guesses[i]?.as == null),
  );
  for (const name of names) {
    const fields = new Set(
      listNamed(table, name, value, []).flatMap((one) => {
        const { as } = guessColumn(one.name, one.cells, decimal, null);
        return isField(as) ? [as] : [];
      }),
    );
    if (fields.size >= LEAST_FIELDS) return { name, value, unit: find('unit') ?? null };
  }
  return null;
}

/** The names of a long layout, with the values that each has. */
export function listNamed(
  table: SampleTable,
  name: SampleColumn,
  value: SampleColumn,
  missing: readonly string[],
  unit: SampleColumn | null = null,
): NamedCells[] {
  const isMissing = createMissingTest(missing);
  const named = new Map<string, string[]>();
  for (const { cells } of table.rows) {
    const text = (cells[name.index] ?? '').replaceAll(/\s+/g, ' ').trim();
    if (text === '' || text.length > 200 || toPlainText(text) !== text) continue;
    const found = named.get(text) ?? [];
    if (found.length === 0) {
      if (named.size >= MOST_NAMES) continue;
      named.set(text, found);
    }
    const cell = (cells[value.index] ?? '').trim();
    const behind = unit === null ? '' : ` ${cells[unit.index] ?? ''}`;
    if (!isMissing(cell)) found.push(`${cell}${behind}`.trim());
  }
  return [...named].map(([text, cells]) => ({ name: text, cells }));
}

export function guessNames(
  named: readonly NamedCells[],
  decimal: Mapping['decimal'],
): { names: SeenName[]; taken: Mapping['names']; doubts: Doubt[] } {
  const taken: Mapping['names'] = [];
  const doubts: Doubt[] = [];
  const names = named.map(({ name, cells }): SeenName => {
    const guess = guessColumn(name, cells, decimal, null);
    const samples = [...new Set(cells)].slice(0, 5).map((cell) => cell.slice(0, 80));
    const seen = { name, values: cells.length, samples };
    if (!isField(guess.as)) return { ...seen, guess: null };
    const { as: field, unit } = guess;
    const before = taken.find((one) => one.field === field);
    if (before === undefined) taken.push({ name, field, unit });
    const messages =
      before === undefined ? guess.doubts : [`may be ${field} as well as '${before.name}', which is taken`];
    for (const message of messages) doubts.push({ about: 'columns', column: name, message });
    return { ...seen, guess: { field, unit } };
  });
  return { names, taken, doubts };
}
