import type { FieldError } from '#server/contract/problems.ts';
import { readingFields } from '#server/contract/readings.ts';
import { SlipdriftError } from '#server/errors.ts';
import { suggestName } from '#server/services/csv/suggest-name.ts';

/** Of each group one must be there. */
const required = [
  ['vehicle'],
  ['at'],
  ['odometer_km', 'odometer_mi'],
  ['slip_rpm', 'engine_rpm'],
  ['duty_pct'],
];

/** The field that each column holds; null for a column that is left out. */
export type CsvColumns = (string | null)[];

/** Reads the header line. Every fault of it is named at once, so that it is put right in one go. */
export function readCsvHeader(line: number, cells: string[], ignoreUnknown: boolean): CsvColumns {
  const names = cells.map((cell) => cell.trim());
  if (!names.some((name) => readingFields.includes(name))) throw notAHeader(line, names);
  const errors: FieldError[] = [];
  for (const [index, name] of names.entries()) {
    if (name === '') errors.push({ line, field: '', message: `column ${index + 1} has no name` });
    else if (names.indexOf(name) !== index) errors.push({ line, field: name, message: 'is named twice' });
    else if (!readingFields.includes(name) && !ignoreUnknown)
      errors.push({ line, field: name, message: `is not a known column${suggestName(name, readingFields)}` });
  }
  for (const [name = '', other] of required)
    if (!names.includes(name) && (other === undefined || !names.includes(other)))
      errors.push({ line, field: name, message: `is missing${other === undefined ? '' : ` (or ${other})`}` });
  if (names.includes('engine_rpm') && !names.includes('slip_rpm') && !names.includes('turbine_rpm'))
    errors.push({
      line,
      field: 'turbine_rpm',
      message: 'is missing (engine_rpm needs it, or give slip_rpm)',
    });
  if (errors.length > 0) throw headerFault(errors);
  return names.map((name) => (readingFields.includes(name) ? name : null));
}

function notAHeader(line: number, names: string[]): SlipdriftError {
  const [first = ''] = names;
  const separator = names.length > 1 ? undefined : /[;\t|]/.exec(first)?.[0];
  const message =
    separator === undefined
      ? 'does not name the columns'
      : `has its cells separated by ${separator === '\t' ? 'tabs' : `'${separator}'`}; use commas`;
  return headerFault([{ line, field: '', message }]);
}

function headerFault(errors: FieldError[]): SlipdriftError {
  return new SlipdriftError(
    'invalid_request',
    `The first line of the CSV must name the columns. Nothing of this body was stored. Known columns: ${readingFields.join(', ')}. ` +
      'Columns of other names are left out with ?unknown_columns=ignore.',
    { errors },
  );
}
