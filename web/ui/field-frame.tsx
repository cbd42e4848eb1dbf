import { type ReactNode, useId } from 'react';
import styles from './field.module.css';

export interface FieldWords {
  label: string;
  hint?: string | undefined;
  error?: string | undefined;
}

interface Control {
  id: string;
  'aria-describedby': string | undefined;
  'aria-invalid': boolean;
}

/** Label, what belongs to it, and what is wrong with it, tied to one control. */
export function FieldFrame({
  label,
  hint,
  error,
  children,
}: FieldWords & { children: (control: Control) => ReactNode }) {
  const id = useId();
  const described = [hint && `${id}-hint`, error && `${id}-error`].filter(Boolean).join(' ');
  return (
    <div className={styles.field}>
      <label className={styles.label} htmlFor={id}>
        {label}
      </label>
      {children({ id, 'aria-describedby': described || undefined, 'aria-invalid': error !== undefined })}
      {hint !== undefined && (
        <p className={styles.hint} id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {error !== undefined && (
        <p className={styles.error} id={`${id}-error`}>
          {error}
        </p>
      )}
    </div>
  );
}
