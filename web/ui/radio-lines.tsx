import { useId } from 'react';
import { ChoiceLine, ChoiceLines } from './choice-lines.tsx';
import styles from './field.module.css';

interface Props<T extends string> {
  legend: string;
  value: T;
  options: readonly { value: T; label: string; words?: string }[];
  onChange: (value: T) => void;
  error?: string | undefined;
}

/** A few options of which one is taken, each on its line with what it means. */
export function RadioLines<T extends string>({ legend, value, options, onChange, error }: Props<T>) {
  const id = useId();
  return (
    <ChoiceLines
      legend={legend}
      describedBy={error === undefined ? undefined : `${id}-error`}
      isFault={error !== undefined}
    >
      {options.map((option) => (
        <ChoiceLine
          key={option.value}
          type="radio"
          name={id}
          label={option.label}
          words={option.words}
          checked={option.value === value}
          onChange={() => onChange(option.value)}
        />
      ))}
      {error !== undefined && (
        <p className={styles.error} id={`${id}-error`}>
          {error}
        </p>
      )}
    </ChoiceLines>
  );
}
