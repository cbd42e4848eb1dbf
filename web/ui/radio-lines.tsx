import { useId } from 'react';
import styles from './radio-lines.module.css';

interface Props<T extends string> {
  legend: string;
  value: T;
  options: readonly { value: T; label: string; words?: string }[];
  onChange: (value: T) => void;
}

/** A few options of which one is taken, each on its line with what it means. */
export function RadioLines<T extends string>({ legend, value, options, onChange }: Props<T>) {
  const id = useId();
  return (
    <fieldset className={styles.group}>
      <legend className={styles.legend}>{legend}</legend>
      {options.map((option) => (
        <label key={option.value} className={styles.line}>
          <input
            type="radio"
            name={id}
            checked={option.value === value}
            onChange={() => onChange(option.value)}
          />
          <span>
            <span className={styles.name}>{option.label}</span>
            {option.words !== undefined && <span className={styles.words}>{option.words}</span>}
          </span>
        </label>
      ))}
    </fieldset>
  );
}
