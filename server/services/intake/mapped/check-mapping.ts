import { durationUnits, fieldUnits } from '#server/contract/field-units.ts';
import type { FileUnit, Given, MappedField, Mapping } from '#server/contract/mappings.ts';
import { mappedFields } from '#server/contract/mappings.ts';
import type { FieldError } from '#server/contract/problems.ts';
import { dayOfFile, vehicleOfFile } from './vehicle-of-file.ts';
import { isZone } from './zone-clock.ts';

const isField = (takes: string): takes is MappedField => (mappedFields as readonly string[]).includes(takes);

/** What in a mapping does not fit together, all of it at once; nothing where every row can be read by it. */
export function checkMapping(mapping: Mapping): FieldError[] {
  const errors: FieldError[] = [];
  const complain = (field: string, message: string) => errors.push({ field, message });
  const { columns, names, layout, time } = mapping;
  for (const name of findTwice(columns.map(({ column }) => column)))
    complain('columns', `the column '${name}' is taken twice`);
  const takes = columns.map((one) => one.takes);
  for (const take of findTwice(takes)) complain('columns', `two columns are taken for ${take}`);
  const has = (take: string) => takes.some((one) => one === take);
  if ((mapping.vehicle === 'column') !== has('vehicle'))
    complain(
      'vehicle',
      has('vehicle')
        ? 'a column is taken for it, but it is said to be named elsewhere'
        : 'has no column; or say that the name of the file, or whoever brings it, names it',
    );
  checkTime(mapping, has, complain);
  const fields = layout === 'wide' ? takes.filter(isField) : names.map(({ field }) => field);
  if (layout === 'wide') {
    for (const take of ['name', 'value', 'unit'])
      if (has(take)) complain('columns', `a column is taken for ${take}, which is for the layout long alone`);
    if (names.length > 0) complain('names', 'names of values are for the layout long alone');
  } else {
    for (const take of ['name', 'value'])
      if (!has(take)) complain('columns', `have none for ${take}, which the layout long needs`);
    for (const take of takes.filter(isField))
      complain('columns', `a column is taken for ${take}; in the layout long, figures come by their names`);
    for (const name of findTwice(names.map((one) => one.name))) complain('names', `'${name}' is there twice`);
    for (const field of findTwice(fields)) complain('names', `two names are taken for ${field}`);
  }
  checkNeeded(fields, layout === 'wide' ? 'columns' : 'names', complain);
  const checkUnit = (where: string, name: string, fits: readonly FileUnit[], unit: FileUnit | null) => {
    if (unit === null || fits.includes(unit)) return;
    const instead = fits.length === 0 ? 'it has no unit' : `it can be in ${fits.join(', ')}`;
    complain(where, `'${name}' cannot be in ${unit}: ${instead}`);
  };
  for (const { column, takes: take, unit } of columns)
    checkUnit('columns', column, isField(take) ? fieldUnits[take] : unitsOfRole(take, time), unit);
  for (const { name, field, unit } of names) checkUnit('names', name, fieldUnits[field], unit);
  return errors;
}

const unitsOfRole = (take: string, time: Mapping['time']): readonly FileUnit[] =>
  take === 'time' && time.form === 'seconds' ? durationUnits : [];

function checkTime(
  { time }: Mapping,
  has: (take: string) => boolean,
  complain: (field: string, message: string) => void,
): void {
  if (!has('time') && !has('clock')) complain('time', 'has no column');
  if (has('time') && has('clock'))
    complain('time', 'is taken from one column whole and from another in part');
  const isWhole = time.form !== 'text' && time.form !== 'sheet_days';
  if (isWhole && (has('date') || has('clock')))
    complain('time.form', `${time.form} stands in one column, taken for time`);
  if (time.form === 'text' || time.form === 'sheet_days') {
    if (time.date === 'column' && has('clock') && !has('date'))
      complain('time.date', 'has no column; or say where the day is');
    if (time.date !== 'column' && has('date'))
      complain('time.date', 'a column is taken for it, but it is said to be elsewhere');
  }
  if (time.zone !== null && !isZone(time.zone)) complain('time.zone', notAZone);
}

const notAZone = 'is no time zone such as Europe/Berlin or +02:00';

function checkNeeded(
  fields: readonly MappedField[],
  where: string,
  complain: (field: string, message: string) => void,
): void {
  const has = (field: MappedField) => fields.includes(field);
  for (const field of ['odometer_km', 'duty_pct'] as const)
    if (!has(field)) complain(where, `have none for ${field}, which a reading needs`);
  if (!has('slip_rpm') && !(has('engine_rpm') && has('turbine_rpm')))
    complain(where, 'have none for slip_rpm, nor for both engine_rpm and turbine_rpm, from which slip comes');
}

/** What the mapping leaves to whoever brings a file, and was not given. */
export function findLacking({ vehicle, time }: Mapping, given: Given): FieldError[] {
  const lacking: FieldError[] = [];
  const complain = (field: string, message: string) => lacking.push({ field, message });
  if (vehicle !== 'column' && vehicleOfFile(vehicle, given) === null)
    complain(
      'vehicle',
      vehicle === 'given'
        ? 'must be given with the file: its rows name none'
        : 'must be given, or the name of the file that names it',
    );
  const byDays = time.form === 'text' || time.form === 'sheet_days';
  if (byDays && time.date !== 'column' && given.date === undefined) {
    const isInName = time.date === 'file_name' && given.file !== undefined && dayOfFile(given.file) !== null;
    if (!isInName)
      complain(
        'date',
        time.date === 'given'
          ? 'must be given with the file: its rows have the time of day alone'
          : 'must be given, or a name of the file with the day, such as 2026-03-04 or 20260304',
      );
  }
  if (time.form === 'seconds' && given.start === undefined)
    complain('start', 'must be given with the file: its rows have the seconds since then');
  if (given.zone !== undefined && !isZone(given.zone)) complain('zone', notAZone);
  else if (time.form === 'sheet_days' && time.zone === null && given.zone === undefined)
    complain('zone', needsZone);
  return lacking;
}

export const needsZone = 'must be given with the file, or by the mapping: its times carry none';

function findTwice<T extends string>(all: readonly T[]): T[] {
  return [...new Set(all.filter((one, i) => all.indexOf(one) !== i))];
}
