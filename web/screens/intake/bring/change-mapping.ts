import type { Look } from '#server/contract/looks.ts';
import type { ColumnTake, FileUnit, MappedField, Mapping } from '#server/contract/mappings.ts';
import { unitsOf } from './take-words.ts';

const unitFor = (take: ColumnTake, unit: FileUnit | null): FileUnit | null =>
  unit !== null && unitsOf(take).includes(unit) ? unit : null;

/** Takes a column for something, or leaves it out; what another column was taken for so far is given up there. */
export function setTake(
  mapping: Mapping,
  column: string,
  take: ColumnTake | null,
  guessed: FileUnit | null = null,
): Mapping {
  const others = mapping.columns.filter((one) => one.column !== column && one.takes !== take);
  if (take === null) return { ...mapping, columns: others };
  const changed = { column, takes: take, unit: unitFor(take, guessed) };
  return { ...mapping, columns: [...others, changed] };
}

/** Our own unit is kept as none, so that a mapping says only what differs. */
const kept = (take: ColumnTake, unit: FileUnit): FileUnit | null => (unitsOf(take)[0] === unit ? null : unit);

export const setUnit = (mapping: Mapping, column: string, unit: FileUnit): Mapping => ({
  ...mapping,
  columns: mapping.columns.map((one) =>
    one.column === column ? { ...one, unit: kept(one.takes, unit) } : one,
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
  form: Partial<Pick<Mapping, 'separator' | 'encoding' | 'skip_lines' | 'header' | 'layout'>>,
): Mapping => ({ ...mapping, ...form, columns: [], names: [] });

export const setTime = (mapping: Mapping, time: Partial<Mapping['time']>): Mapping => ({
  ...mapping,
  time: { ...mapping.time, ...time },
});

/** The mapping with what the columns and names seen are guessed to be. */
export function takeGuesses(mapping: Mapping, look: Pick<Look, 'columns' | 'names'>): Mapping {
  let taken: Mapping = { ...mapping, columns: [], names: [] };
  for (const { column, guess } of look.columns)
    if (guess !== null && !taken.columns.some(({ takes }) => takes === guess.takes))
      taken = setTake(taken, column, guess.takes, guess.unit);
  for (const { name, guess } of look.names)
    if (guess !== null && !taken.names.some(({ field }) => field === guess.field))
      taken = setNameField(taken, name, guess.field, guess.unit);
  return taken;
}
