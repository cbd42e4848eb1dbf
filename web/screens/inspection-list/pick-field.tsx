import { useId } from 'react';
import styles from './list-filters.module.css';

interface Props {
  label: string;
  value: string;
  options: readonly { value: string; label: string }[];
  onPick: (value: string) => void;
}

export function PickField({ label, value, options, onPick }: Props) {
  const id = useId();
  return (
    <div className={styles.field}>
      <label htmlFor={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => onPick(event.target.value)}>
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </div>
  );
}
