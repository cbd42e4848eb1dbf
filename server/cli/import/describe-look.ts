import type { Look } from '#server/contract/looks.ts';
import type { Mapping } from '#server/contract/mappings.ts';
import { describeCan } from './describe-can.ts';
import { describeRefusal } from './describe-import.ts';

const number = new Intl.NumberFormat('en');
const ROWS_SHOWN = 5;
const FAULTS_SHOWN = 10;
const formats = { csv: 'CSV', ndjson: 'NDJSON', json: 'JSON', can: 'a CAN log' };
const separators = { ',': 'commas', ';': 'semicolons', '\t': 'tabs', '|': 'bars' };

/** What a file would come to, as lines for a person. */
export function describeLook(name: string, look: Look): string[] {
  const { format, gzip, mapping, doubts, lacks, own_form: ownForm } = look;
  const lines = [
    `${name}: ${formats[format]}${gzip ? ', gzip' : ''}${ownForm && format === 'csv' ? ', in our own form' : ''}`,
  ];
  if (mapping !== null) lines.push(...describeMapping(mapping));
  const left = look.columns.filter(({ column }) => mapping?.columns.every((one) => one.column !== column));
  if (mapping !== null && left.length > 0)
    lines.push(`  left out: ${left.map(({ column }) => `'${column}'`).join(', ')}`);
  if (look.can !== null) lines.push(...describeCan(look.can));
  for (const { message } of doubts) lines.push(`  To check: ${message}`);
  for (const lack of lacks) lines.push(`  Lacks: ${describeRefusal(lack)}`);
  if (lacks.length > 0 && look.lines === 0) return lines;
  lines.push(
    `  ${number.format(look.lines)} looked at: ${number.format(look.good)} would be taken, ${number.format(look.bad)} refused; of ${number.format(look.vehicles_total)} vehicles${look.first_at === null ? '' : `, ${look.first_at} to ${look.last_at}`}`,
  );
  for (const { line, reading, errors } of look.rows.slice(0, ROWS_SHOWN))
    lines.push(
      `  line ${line}: ${reading === null ? `refused, ${errors.map(describeRefusal).join('; ')}` : describeReading(reading)}`,
    );
  for (const fault of look.faults.slice(0, FAULTS_SHOWN))
    lines.push(
      `  refused ${number.format(fault.lines)}: ${describeRefusal({ field: fault.field, message: fault.message })} (first in line ${fault.line})`,
    );
  return lines;
}

function describeMapping(mapping: Mapping): string[] {
  const { separator, decimal, encoding, skip_lines: skipped, header, layout, time } = mapping;
  const form = [
    `cells parted by ${separators[separator]}`,
    `decimal ${decimal === '.' ? 'point' : 'comma'}`,
    encoding,
    ...(skipped > 0 ? [`${skipped} lines skipped`] : []),
    ...(header ? [] : ['no names of columns']),
    ...(mapping.units_line ? ['units below the names'] : []),
    layout === 'long' ? `a value a row, joined within ${mapping.join_within_s} s` : 'a moment a row',
  ];
  const vehicle = { column: 'in a column', file_name: 'in the name of the file', given: 'given' }[
    mapping.vehicle
  ];
  return [
    `  ${form.join(', ')}`,
    `  vehicle: ${vehicle}; time: ${time.form}, ${time.order}${time.date === 'column' ? '' : `, day ${time.date === 'given' ? 'given' : 'in the name of the file'}`}, zone ${time.zone ?? 'in the times, or given'}`,
    ...mapping.columns.map(
      ({ column, takes, unit }) => `  '${column}' is ${takes}${unit === null ? '' : ` in ${unit}`}`,
    ),
    ...mapping.names.map(
      ({ name, field, unit }) => `  '${name}' is ${field}${unit === null ? '' : ` in ${unit}`}`,
    ),
  ];
}

function describeReading({ vehicle, at, ...values }: NonNullable<Look['rows'][number]['reading']>): string {
  const known = Object.entries(values).filter(([, value]) => value !== null);
  return `${vehicle} ${at} ${known.map(([field, value]) => `${field} ${typeof value === 'number' ? Number(value.toFixed(3)) : String(value)}`).join(', ')}`;
}
