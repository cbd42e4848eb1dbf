import type { CsvColumns } from './csv-columns.ts';

const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;
const TEXTS = new Set(['vehicle', 'at']);

/** A row of cells as the object that JSON would have brought. An empty cell is an absent field. */
export function toCsvValue(columns: CsvColumns, cells: string[]): Record<string, unknown> {
  const value: Record<string, unknown> = {};
  for (let i = 0; i < columns.length; i++) {
    const field = columns[i];
    if (field === null || field === undefined) continue;
    const cell = (cells[i] ?? '').trim();
    if (cell !== '') value[field] = toFieldValue(field, cell);
  }
  return value;
}

/** What cannot be converted stays text: the schema says what is wrong with it. */
function toFieldValue(field: string, cell: string): unknown {
  if (TEXTS.has(field)) return cell;
  if (field === 'codes') return cell.split(/[\s;]+/).filter((code) => code !== '');
  if (field === 'shifting') return toBoolean(cell);
  return NUMBER.test(cell) ? Number(cell) : cell;
}

function toBoolean(cell: string): boolean | string {
  const text = cell.toLowerCase();
  if (text === 'true' || text === '1') return true;
  if (text === 'false' || text === '0') return false;
  return cell;
}
