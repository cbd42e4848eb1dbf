import { useId } from 'react';
import { readClock } from '#web/format/read-clock.ts';
import styles from './depots.module.css';

interface Props {
  /** spoken: what it stands in says the rest */
  label: string;
  error: string | undefined;
  placeholder?: string;
  value: string;
  onChange: (text: string) => void;
}

/** A time of day in a line of other fields; what was typed in short is written out when it is left. */
export function BareField({ label, error, placeholder, value, onChange }: Props) {
  const id = useId();
  const clock = readClock(value);
  return (
    <span className={styles.bare}>
      <input
        className={styles.clock}
        aria-label={label}
        aria-invalid={error !== undefined}
        aria-describedby={error === undefined ? undefined : id}
        inputMode="numeric"
        autoComplete="off"
        maxLength={5}
        placeholder={placeholder}
        value={value}
        onChange={(event) => onChange(event.target.value)}
        onBlur={() => {
          if (clock !== null && clock !== value) onChange(clock);
        }}
      />
      {error !== undefined && (
        <span className={styles.error} id={id}>
          {error}
        </span>
      )}
    </span>
  );
}
