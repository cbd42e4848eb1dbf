import type { FieldError } from '#server/contract/problems.ts';
import { SlipdriftError } from '#server/errors.ts';
import { fieldNames, readColumnName, readUnit, type TraceField, traceFields } from './trace-names.ts';

/** Of each group one way must be there whole. */
const required: readonly (readonly (readonly TraceField[])[])[] = [
  [['time']],
  [['throttle']],
  [['speed']],
  [['slip'], ['engine', 'turbine']],
  [['duty']],
];

export interface TraceColumn {
  index: number;
  /** as the file spells it */
  header: string;
  /** null where neither name nor units line says one */
  unit: string | null;
}

export type TraceColumns = Partial<Record<TraceField, TraceColumn>>;

/** Finds the columns by their names; `units` is the line below, where it is one of units. */
export function findTraceColumns(
  header: readonly string[],
  units: readonly string[] | null,
  line: number,
): TraceColumns {
  const named = header.map((cell, index) => ({ ...readColumnName(cell), header: cell.trim(), index }));
  const columns: TraceColumns = {};
  const errors: FieldError[] = [];
  for (const field of traceFields) {
    const { names, units: known, words } = fieldNames[field];
    const name = names.find((one) => named.some((column) => column.name === one));
    const column = named.find((one) => one.name === name);
    if (column === undefined) continue;
    const said = column.unit ?? readUnit(units?.[column.index] ?? '');
    const unit = known.find((one) => one === said?.unit) ?? null;
    if (known.length > 0 && said !== null && unit === null)
      errors.push({
        line,
        field: column.header,
        message: `is in ${said.text}; ${words} must be in ${known.join(' or ')}`,
      });
    columns[field] = { index: column.index, header: column.header, unit };
  }
  for (const ways of required) {
    if (ways.some((way) => way.every((field) => columns[field] !== undefined))) continue;
    const names = ways.map((way) => way.map((field) => fieldNames[field].words).join(' and '));
    errors.push({
      line,
      field: fieldNames[ways[0]?.[0] ?? 'time'].words,
      message: `is missing: no column of ${names.join(', nor of ')}`,
    });
  }
  if (errors.length > 0)
    throw refuseColumns(
      named.map((one) => one.header),
      columns,
      errors,
    );
  return columns;
}

/** A line of units and nothing else, as some recorders write below the names. */
export const isUnitsLine = (cells: readonly string[]): boolean => {
  const filled = cells.map((cell) => cell.trim()).filter((cell) => cell !== '' && cell !== '-');
  return filled.length > 0 && filled.every((cell) => readUnit(cell) !== null);
};

function refuseColumns(
  headers: readonly string[],
  columns: TraceColumns,
  errors: FieldError[],
): SlipdriftError {
  const taken = traceFields.flatMap((field) => {
    const column = columns[field];
    return column === undefined ? [] : [`${fieldNames[field].words} in '${shorten(column.header)}'`];
  });
  const missing = errors.filter(({ message }) => message.startsWith('is missing')).map(({ field }) => field);
  const parts = [
    'The first line of the file must name its columns: time, throttle, speed, slip and duty at least.',
    missing.length > 0 ? `Missing: ${missing.join(', ')}.` : '',
    `Found: ${taken.length === 0 ? 'none of them' : taken.join(', ')}.`,
    `The columns of the file are ${headers
      .slice(0, 40)
      .map((one) => `'${shorten(one)}'`)
      .join(', ')}.`,
    'Nothing was stored; put the names right and send it again.',
  ];
  return new SlipdriftError('invalid_request', parts.filter((part) => part !== '').join(' '), { errors });
}

const shorten = (text: string): string => (text.length > 60 ? `${text.slice(0, 59)}…` : text);
