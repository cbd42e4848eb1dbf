import { type RefObject, useState } from 'react';
import { Button } from './button.tsx';
import styles from './field.module.css';
import { FieldFrame, type FieldWords } from './field-frame.tsx';

interface Props extends FieldWords {
  value: string;
  onChange: (text: string) => void;
  /** Tells password managers whether to fill in or to make up. */
  autoComplete: 'current-password' | 'new-password';
  input?: RefObject<HTMLInputElement | null>;
}

/** Hidden until its owner wants to read it. Pasting is never kept from anybody. */
export function PasswordField({ label, hint, error, value, onChange, autoComplete, input }: Props) {
  const [isShown, setShown] = useState(false);
  return (
    <FieldFrame label={label} hint={hint} error={error}>
      {(control) => (
        <span className={styles.secret}>
          <input
            {...control}
            {...(input === undefined ? {} : { ref: input })}
            type={isShown ? 'text' : 'password'}
            name={autoComplete}
            value={value}
            maxLength={128}
            autoComplete={autoComplete}
            autoCapitalize="none"
            spellCheck={false}
            required
            onChange={(event) => onChange(event.target.value)}
          />
          <Button
            kind="quiet"
            aria-controls={control.id}
            aria-label={`${isShown ? 'Hide' : 'Show'} ${label.toLowerCase()}`}
            onClick={() => setShown(!isShown)}
          >
            {isShown ? 'Hide' : 'Show'}
          </Button>
        </span>
      )}
    </FieldFrame>
  );
}
