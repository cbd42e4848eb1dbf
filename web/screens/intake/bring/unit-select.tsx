import type { ColumnTake, FileUnit, Mapping } from '#server/contract/mappings.ts';
import { BareSelect } from './bare-select.tsx';
import { unitsOf, unitWords } from './take-words.ts';

interface Props {
  /** the column or name whose unit it is */
  of: string;
  take: ColumnTake | null;
  /** null: our own */
  unit: FileUnit | null;
  form?: Mapping['time']['form'];
  onChange: (unit: FileUnit) => void;
}

export function UnitSelect({ of, take, unit, form, onChange }: Props) {
  const units = take === null ? [] : unitsOf(take, form);
  const own = units[0];
  if (own === undefined) return null;
  return (
    <BareSelect
      label={`Unit of ${of}`}
      value={unit ?? own}
      options={units.map((value) => ({ value, label: unitWords[value] }))}
      onChange={onChange}
    />
  );
}
