import type { Look } from '#server/contract/looks.ts';
import type { ColumnTake, FileUnit, MappedField, Mapping } from '#server/contract/mappings.ts';
import { takesOf, unitsOf } from './take-words.ts';

const unitFor = (take: ColumnTake, unit: FileUnit | null): FileUnit | null =>
  unit !== null && unitsOf(take).includes(unit) ? unit : null;

/** A moment stands whole in one column, or in parts in others. */
const excludes: Partial<Record<ColumnTake, readonly ColumnTake[]>> = {
  time: ['date', 'clock'],
  date: ['time'],
  clock: ['time'],
};

/**
 * Takes a column for something, or leaves it out. What another column was taken for so far is given up there, and a
 * vehicle or a day that stands in a column is looked for nowhere else.
 */
export function setTake(
  mapping: Mapping,
  column: string,
  take: ColumnTake | null,
  guessed: FileUnit | null = null,
): Mapping {
  const others = mapping.columns.filter((one) => one.column !== column);
  if (take === null) return { ...mapping, columns: others };
  const given = [take, ...(excludes[take] ?? [])];
  const columns = [
    ...others.filter(({ takes }) => !given.includes(takes)),
    { column, takes: take, unit: unitFor(take, guessed) },
  ];
  return {
    ...mapping,
    columns,
    vehicle: take === 'vehicle' ? 'column' : mapping.vehicle,
    time: take === 'date' ? { ...mapping.time, date: 'column' } : mapping.time,
  };
}

/** Where the vehicle is named; a column that was taken for it is left out where it is named elsewhere. */
export const setVehicle = (mapping: Mapping, vehicle: Mapping['vehicle']): Mapping => ({
  ...mapping,
  vehicle,
  columns:
    vehicle === 'column' ? mapping.columns : mapping.columns.filter(({ takes }) => takes !== 'vehicle'),
});

/** Where the day is; the same. */
export const setDay = (mapping: Mapping, date: Mapping['time']['date']): Mapping => ({
  ...setTime(mapping, { date }),
  columns: date === 'column' ? mapping.columns : mapping.columns.filter(({ takes }) => takes !== 'date'),
});

const toKey = (name: string): string => name.trim().replaceAll(/\s+/g, ' ').toLowerCase();

/** Columns of a mapping under the names that this file has for them: spaces and capitals part none. */
export function alignColumns(mapping: Mapping, names: readonly string[]): Mapping {
  const exact = new Set(names);
  const byKey = new Map(names.map((name) => [toKey(name), name]));
  return {
    ...mapping,
    columns: mapping.columns.map((one) =>
      exact.has(one.column) ? one : { ...one, column: byKey.get(toKey(one.column)) ?? one.column },
    ),
  };
}

/** Our own unit is kept as none, so that a mapping says only what differs. */
const kept = (take: ColumnTake, unit: FileUnit, form?: Mapping['time']['form']): FileUnit | null =>
  unitsOf(take, form)[0] === unit ? null : unit;

export const setUnit = (mapping: Mapping, column: string, unit: FileUnit): Mapping => ({
  ...mapping,
  columns: mapping.columns.map((one) =>
    one.column === column ? { ...one, unit: kept(one.takes, unit, mapping.time.form) } : one,
  ),
});

export function setNameField(
  mapping: Mapping,
  name: string,
  field: MappedField | null,
  guessed: FileUnit | null = null,
): Mapping {
  const others = mapping.names.filter((one) => one.name !== name && one.field !== field);
  if (field === null) return { ...mapping, names: others };
  return { ...mapping, names: [...others, { name, field, unit: unitFor(field, guessed) }] };
}

export const setNameUnit = (mapping: Mapping, name: string, unit: FileUnit): Mapping => ({
  ...mapping,
  names: mapping.names.map((one) => (one.name === name ? { ...one, unit: kept(one.field, unit) } : one)),
});

/** What decides how lines are cut: after a change the columns are others, and are guessed anew. */
export const setForm = (
  mapping: Mapping,
  form: Partial<Pick<Mapping, 'separator' | 'encoding' | 'skip_lines' | 'header' | 'units_line' | 'layout'>>,
): Mapping => ({ ...mapping, ...form, columns: [], names: [] });

export const setTime = (mapping: Mapping, time: Partial<Mapping['time']>): Mapping => ({
  ...mapping,
  time: { ...mapping.time, ...time },
});

/** The mapping with what the columns and names seen are guessed to be, as far as its layout has it. */
export function takeGuesses(mapping: Mapping, look: Pick<Look, 'columns' | 'names'>): Mapping {
  const { layout } = mapping;
  const fitting: readonly ColumnTake[] = takesOf[layout];
  let taken: Mapping = { ...mapping, columns: [], names: [] };
  const hasSlip = look.columns.some(({ guess }) => guess?.takes === 'slip_rpm');
  for (const { column, guess } of look.columns)
    if (
      guess !== null &&
      fitting.includes(guess.takes) &&
      // The two speeds that slip can come from are not needed beside it: a fault in them would refuse a good row.
      !(hasSlip && (guess.takes === 'engine_rpm' || guess.takes === 'turbine_rpm')) &&
      !taken.columns.some(({ takes }) => takes === guess.takes)
    )
      taken = setTake(taken, column, guess.takes, guess.unit);
  if (layout === 'wide') return taken;
  for (const { name, guess } of look.names)
    if (guess !== null && !taken.names.some(({ field }) => field === guess.field))
      taken = setNameField(taken, name, guess.field, guess.unit);
  return taken;
}
