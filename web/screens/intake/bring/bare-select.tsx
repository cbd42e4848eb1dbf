import styles from './bring.module.css';

interface Props<T extends string> {
  /** spoken: the row and the head of the column say the rest */
  label: string;
  value: T;
  options: readonly { value: T; label: string }[];
  onChange: (value: T) => void;
}

/** A choice in a cell of a table. */
export const BareSelect = <T extends string>({ label, value, options, onChange }: Props<T>) => (
  <select
    className={styles.bare}
    aria-label={label}
    value={value}
    onChange={(event) => onChange(event.target.value as T)}
  >
    {options.map((option) => (
      <option key={option.value} value={option.value}>
        {option.label}
      </option>
    ))}
  </select>
);
