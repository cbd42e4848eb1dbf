import type { Look } from '#server/contract/looks.ts';
import type { Mapping } from '#server/contract/mappings.ts';
import { SelectField } from '#web/ui/select-field.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import styles from './bring.module.css';
import { setForm } from './change-mapping.ts';
import { doubtsAt, lacksAt } from './place-lack.ts';
import { Remarks } from './step.tsx';

interface Props {
  look: Look;
  mapping: Mapping;
  /** `isCut`: lines are cut otherwise, and the columns are guessed anew */
  onChange: (mapping: Mapping, isCut?: boolean) => void;
}

const separators = [
  { value: ',', label: 'commas' },
  { value: ';', label: 'semicolons' },
  { value: '\t', label: 'tabs' },
  { value: '|', label: 'upright strokes |' },
];

/** How the text is cut into cells and its figures are written. */
export function FormPart({ look, mapping, onChange }: Props) {
  const cut = (form: Parameters<typeof setForm>[1]) => onChange(setForm(mapping, form), true);
  return (
    <>
      <div className={styles.fields}>
        <SelectField
          label="Cells are parted by"
          value={mapping.separator}
          options={separators}
          onChange={(value) => cut({ separator: value as Mapping['separator'] })}
        />
        <SelectField
          label="Decimals come after"
          value={mapping.decimal}
          options={[
            { value: '.', label: 'a point, 12.5' },
            { value: ',', label: 'a comma, 12,5' },
          ]}
          onChange={(value) => onChange({ ...mapping, decimal: value as Mapping['decimal'] })}
        />
        <SelectField
          label="One row is"
          value={mapping.layout}
          options={[
            { value: 'wide', label: 'one moment with all its values' },
            { value: 'long', label: 'one value with its name' },
          ]}
          onChange={(value) => cut({ layout: value as Mapping['layout'] })}
        />
        <SelectField
          label="Names of the columns"
          value={mapping.header ? (mapping.units_line ? 'units' : 'yes') : 'no'}
          options={[
            { value: 'yes', label: 'stand in a line' },
            { value: 'units', label: 'stand in a line, units below' },
            { value: 'no', label: 'are not in the file' },
          ]}
          onChange={(value) => cut({ header: value !== 'no', units_line: value === 'units' })}
        />
        <TextField
          label={mapping.header ? 'Lines before the names' : 'Lines before the first row'}
          type="number"
          min={0}
          max={100}
          inputMode="numeric"
          value={String(mapping.skip_lines)}
          onChange={(text) => {
            const lines = Number(text);
            if (Number.isInteger(lines) && lines >= 0 && lines <= 100) cut({ skip_lines: lines });
          }}
        />
        <SelectField
          label="Letters are written in"
          value={mapping.encoding}
          options={[
            { value: 'utf-8', label: 'UTF-8' },
            { value: 'windows-1252', label: 'Windows-1252 (West European)' },
          ]}
          onChange={(value) => cut({ encoding: value as Mapping['encoding'] })}
        />
        <TextField
          label="Cells that mean: no value"
          hint="parted by spaces; empty cells always do"
          value={mapping.missing.join(' ')}
          maxLength={400}
          spellCheck={false}
          onChange={(text) => onChange({ ...mapping, missing: text.split(' ').slice(0, 20) })}
        />
        {mapping.layout === 'long' && (
          <TextField
            label="Values make one reading within, s"
            hint="0: only those of the very same moment"
            type="number"
            min={0}
            max={3600}
            value={String(mapping.join_within_s)}
            onChange={(text) => {
              const seconds = Number(text);
              if (seconds >= 0 && seconds <= 3600) onChange({ ...mapping, join_within_s: seconds });
            }}
          />
        )}
      </div>
      <Remarks doubts={doubtsAt(look, 'form')} lacks={lacksAt(look, 'form')} />
    </>
  );
}
