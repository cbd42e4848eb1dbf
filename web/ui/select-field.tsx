import { FieldFrame, type FieldWords } from './field-frame.tsx';

interface Props extends FieldWords {
  value: string;
  options: readonly { value: string; label: string }[];
  onChange: (value: string) => void;
}

export const SelectField = ({ label, hint, error, value, options, onChange }: Props) => (
  <FieldFrame label={label} hint={hint} error={error}>
    {(control) => (
      <select {...control} value={value} onChange={(event) => onChange(event.target.value)}>
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    )}
  </FieldFrame>
);
