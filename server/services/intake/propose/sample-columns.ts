import type { Mapping } from '#server/contract/mappings.ts';
import { createMissingTest } from '#server/services/intake/mapped/create-cell-reader.ts';
import { nameColumns } from '#server/services/intake/mapped/find-columns.ts';
import { cutTable, type SampleRecord } from './cut-table.ts';

/** How a text is cut into a table. */
export type TableForm = Pick<
  Mapping,
  'separator' | 'skip_lines' | 'header' | 'units_line' | 'decimal' | 'missing'
>;

export interface SampleColumn {
  index: number;
  name: string;
  /** what it holds, less blank cells and marks of missing values */
  cells: string[];
  /** the first that differ */
  samples: string[];
}

export interface SampleTable {
  columns: SampleColumn[];
  rows: SampleRecord[];
}

export const SAMPLE_LINES = 3000;
const SAMPLES = 5;
const SAMPLE_CHARACTERS = 80;

export function sampleColumns(text: string, form: TableForm): SampleTable {
  const records = cutTable(text, form.separator, SAMPLE_LINES).filter(({ line }) => line > form.skip_lines);
  const [first, ...below] = records;
  const rows = form.header ? below.slice(form.units_line ? 1 : 0) : records;
  const names = form.header
    ? nameColumns(first?.cells ?? [])
    : (first?.cells ?? []).map((_, i) => `column ${i + 1}`);
  const isMissing = createMissingTest(form.missing);
  const columns = names.map((name, index) => {
    const cells = rows.map((row) => row.cells[index] ?? '').filter((cell) => !isMissing(cell));
    const samples = [...new Set(cells)].slice(0, SAMPLES).map((cell) => cell.slice(0, SAMPLE_CHARACTERS));
    return { index, name, cells, samples };
  });
  return { columns, rows };
}
