import type { ReactNode } from 'react';
import styles from './choice-lines.module.css';

interface GroupProps {
  legend: string;
  describedBy?: string | undefined;
  /** nothing was chosen where something must be */
  isFault?: boolean;
  children: ReactNode;
}

/** Options below each other under what is asked. */
export function ChoiceLines({ legend, describedBy, isFault = false, children }: GroupProps) {
  return (
    <fieldset className={styles.group} aria-describedby={describedBy} data-fault={isFault || undefined}>
      <legend className={styles.legend}>{legend}</legend>
      {children}
    </fieldset>
  );
}

interface LineProps {
  type: 'radio' | 'checkbox';
  /** one for all radio buttons of a group */
  name?: string;
  label: string;
  /** what it means to take it */
  words?: string | undefined;
  checked: boolean;
  onChange: () => void;
}

/** One option with what it means. */
export function ChoiceLine({ type, name, label, words, checked, onChange }: LineProps) {
  return (
    <label className={styles.line}>
      <input type={type} name={name} checked={checked} onChange={onChange} />
      {words === undefined ? (
        label
      ) : (
        <span>
          <span className={styles.name}>{label}</span>
          <span className={styles.words}>{words}</span>
        </span>
      )}
    </label>
  );
}
