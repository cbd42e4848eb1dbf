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
  /** some cells, which may carry a unit of their own: that goes before this one */
  samples: readonly string[];
  onChange: (unit: FileUnit) => void;
}

export function UnitSelect({ of, take, unit, form, samples, onChange }: Props) {
  const units = take === null ? [] : unitsOf(take, form);
  const own = units[0];
  if (own === undefined) return null;
  const also = samples.some((sample) => /\d\s*[^\d\s.,:/'’-]/.test(sample)) ? ' unless the cell says' : '';
  return (
    <BareSelect
      label={`Unit of ${of}`}
      value={unit ?? own}
      options={units.map((value) => ({ value, label: `${unitWords[value]}${also}` }))}
      onChange={onChange}
    />
  );
}
