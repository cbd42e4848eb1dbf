import { type FormEvent, useEffect, useRef, useState } from 'react';
import type { NewKey } from '#server/contract/keys.ts';
import { type KeyRight, keyRights } from '#server/contract/words.ts';
import { useMakeKey } from '#web/api/use-keys.ts';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { findFieldError } from '#web/ui/find-field-error.ts';
import styles from '#web/ui/form.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { RadioLines } from '#web/ui/radio-lines.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import { type ExpiryChoice, expiryOptions, readExpiry } from './key-expiry.ts';
import { rightWords } from './key-words.ts';

interface Props {
  onMade: (made: NewKey) => void;
  onLeave: () => void;
}

const usualRate = '600';
const fields = ['name', 'expires_at', 'requests_per_minute', 'max_body_mib'];

export function KeyForm({ onMade, onLeave }: Props) {
  const make = useMakeKey();
  const form = useRef<HTMLFormElement>(null);
  const [name, setName] = useState('');
  const [right, setRight] = useState<KeyRight>('deliver');
  const [expiry, setExpiry] = useState<ExpiryChoice>('365');
  const [day, setDay] = useState('');
  const [rate, setRate] = useState(usualRate);
  const [size, setSize] = useState('');
  useEffect(() => form.current?.querySelector('input')?.focus(), []);

  const submit = (event: FormEvent) => {
    event.preventDefault();
    make.mutate(
      {
        name: name.trim(),
        right,
        expires_at: readExpiry(expiry, day, new Date()),
        requests_per_minute: Number(rate),
        max_body_mib: size === '' ? null : Number(size),
      },
      { onSuccess: onMade },
    );
  };
  const isTold = fields.some((field) => findFieldError(make.error, field) !== undefined);
  return (
    <form ref={form} className={settingsStyles.sheet} onSubmit={submit} aria-labelledby="key-title">
      <h2 id="key-title">New key</h2>
      {make.isError && !isTold && <ProblemNote error={make.error} />}
      <div className={settingsStyles.columns} data-of="3">
        <div className={settingsStyles.stack}>
          <TextField
            label="Name"
            hint="One key for each machine, named after it: then one can be revoked without the others."
            error={findFieldError(make.error, 'name')}
            autoComplete="off"
            maxLength={120}
            required
            value={name}
            onChange={setName}
          />
        </div>
        <RadioLines
          legend="Right"
          value={right}
          options={keyRights.map((one) => ({ value: one, label: one, words: rightWords[one] }))}
          onChange={setRight}
        />
        <div className={settingsStyles.stack}>
          <SelectField
            label="Works until"
            value={expiry}
            options={expiryOptions}
            error={findFieldError(make.error, 'expires_at')}
            onChange={(choice) => setExpiry(choice as ExpiryChoice)}
          />
          {expiry === 'date' && (
            <TextField label="Last day" type="date" required value={day} onChange={setDay} />
          )}
          <TextField
            label="Calls a minute, at most"
            error={findFieldError(make.error, 'requests_per_minute')}
            type="number"
            inputMode="numeric"
            min={1}
            max={100_000}
            required
            value={rate}
            onChange={setRate}
          />
          <TextField
            label="Longest delivery, MiB"
            hint="Empty: as long as this Slipdrift takes from anybody."
            error={findFieldError(make.error, 'max_body_mib')}
            type="number"
            inputMode="numeric"
            min={1}
            max={65_536}
            value={size}
            onChange={setSize}
          />
        </div>
      </div>
      <div className={styles.buttons}>
        <Button type="submit" kind="main" disabled={make.isPending}>
          Make the key
        </Button>
        <Button kind="quiet" onClick={onLeave}>
          Leave it
        </Button>
      </div>
    </form>
  );
}
