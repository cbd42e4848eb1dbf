import { type FormEvent, useState } from 'react';
import type { WorkbenchChoice } from '#server/contract/workbench.ts';
import { ProblemError } from '#web/api/problem-error.ts';
import { useKeepSet } from '#web/api/use-workbench.ts';
import { AskDialog } from '#web/ui/ask-dialog.tsx';
import { Button } from '#web/ui/button.tsx';
import { findFieldError } from '#web/ui/find-field-error.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import styles from './workbench.module.css';

interface Props {
  /** null where it is longer than what is kept */
  text: string | null;
  choice: WorkbenchChoice;
  onKept: (id: number, name: string) => void;
}

/** Stores a table with its choice under a name, for this person alone. */
export function KeepForm({ text, choice, onKept }: Props) {
  const keep = useKeepSet();
  const [name, setName] = useState('');
  const [asks, setAsks] = useState(false);
  if (text === null)
    return <p className={styles.soft}>Over 4,000,000 characters: too long to be kept here. Keep the file.</p>;
  const send = (replace: boolean) =>
    keep.mutate(
      { name: name.trim(), text, choice, replace },
      {
        onSuccess: (line) => onKept(line.id, line.name),
        onError: (error) =>
          setAsks(
            error instanceof ProblemError && error.code === 'conflict' && error.detail.includes('already'),
          ),
      },
    );
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (name.trim() !== '') send(false);
  };
  const wrong = findFieldError(keep.error, 'name');
  return (
    <form className={styles.keep} onSubmit={submit} noValidate>
      <TextField
        label="Keep it for yourself as"
        value={name}
        maxLength={80}
        autoComplete="off"
        onChange={setName}
        error={wrong}
      />
      <Button type="submit" disabled={keep.isPending || name.trim() === ''}>
        Keep it
      </Button>
      {keep.isError && !asks && wrong === undefined && <ProblemNote error={keep.error} />}
      {asks && (
        <AskDialog
          title={`Replace '${name.trim()}'?`}
          yes="Replace it"
          onNo={() => {
            setAsks(false);
            keep.reset();
          }}
          onYes={() => {
            setAsks(false);
            send(true);
          }}
        >
          <p>You keep a table of this name already. Its text and choice give way to these.</p>
        </AskDialog>
      )}
    </form>
  );
}
