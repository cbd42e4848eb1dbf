import { ChoiceLine } from '#web/ui/choice-lines.tsx';
import { FieldFrame } from '#web/ui/field-frame.tsx';
import type { DraftFields } from '#web/ui/kept-drafts.ts';
import { RadioLines } from '#web/ui/radio-lines.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import { type StepField, ticked } from './step-fields.ts';
import styles from './step-form.module.css';

interface Props {
  list: readonly StepField[];
  fields: DraftFields;
  faults: DraftFields;
  onChange: (patch: DraftFields) => void;
}

/** The fields of a test step, and room for what else was noticed. */
export function StepInputs({ list, fields, faults, onChange }: Props) {
  const unit = fields.unit ?? 'bar';
  return (
    <>
      {list.map((field) => {
        const value = fields[field.name] ?? '';
        const set = (text: string) => onChange({ [field.name]: text });
        if (field.kind === 'choice')
          return (
            <RadioLines
              key={field.name}
              legend={field.label}
              value={value === '' ? (field.usual ?? '') : value}
              options={field.options}
              error={faults[field.name]}
              onChange={set}
            />
          );
        if (field.kind === 'tick')
          return (
            <ChoiceLine
              key={field.name}
              type="checkbox"
              label={field.label}
              words={field.words}
              checked={value === ticked}
              onChange={() => set(value === ticked ? '' : ticked)}
            />
          );
        return (
          <TextField
            key={field.name}
            label={`${field.label}, ${field.unit ?? (unit === 'kpa' ? 'kPa' : unit)}`}
            inputMode="decimal"
            autoComplete="off"
            value={value}
            hint={field.hint}
            error={faults[field.name]}
            onChange={set}
          />
        );
      })}
      <Notes value={fields.notes ?? ''} error={faults.notes} onChange={(notes) => onChange({ notes })} />
    </>
  );
}

interface NotesProps {
  label?: string;
  value: string;
  error?: string | undefined;
  rows?: number;
  longest?: number;
  onChange: (text: string) => void;
}

export const Notes = ({
  label = 'What else was noticed',
  value,
  error,
  rows = 2,
  longest = 1000,
  onChange,
}: NotesProps) => (
  <div className={styles.notes}>
    <FieldFrame label={label} error={error}>
      {(control) => (
        <textarea
          {...control}
          rows={rows}
          maxLength={longest}
          value={value}
          onChange={(event) => onChange(event.target.value)}
        />
      )}
    </FieldFrame>
  </div>
);
