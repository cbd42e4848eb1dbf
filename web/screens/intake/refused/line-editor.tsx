import { useEffect, useId, useRef, useState } from 'react';
import type { Correction, KeptLine } from '#server/contract/intake.ts';
import { useChangeLineStates, useCorrectLine } from '#web/api/use-intake.ts';
import styles from '#web/screens/intake/intake.module.css';
import { Button } from '#web/ui/button.tsx';
import fieldStyles from '#web/ui/field.module.css';
import formStyles from '#web/ui/form.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';

interface Props {
  line: KeptLine;
  /** it was let in or laid aside */
  onSettled: () => void;
  onLeave: () => void;
}

/** One line as it came, to be put right; what is still wrong is said, and nothing is stored until nothing is. */
export function LineEditor({ line, onSettled, onLeave }: Props) {
  const id = useId();
  const field = useRef<HTMLTextAreaElement>(null);
  const [text, setText] = useState(() =>
    line.readable ? line.raw : JSON.stringify(line.reading ?? {}, null, 2),
  );
  const [fault, setFault] = useState('');
  const correct = useCorrectLine();
  const aside = useChangeLineStates();
  useEffect(() => field.current?.focus(), []);
  const letIn = () => {
    const correction = toCorrection(line, text);
    if (correction === null) return setFault('must be the fields of a reading as JSON');
    setFault('');
    correct.mutate({ id: line.id, correction }, { onSuccess: onSettled });
  };
  const said = fault === '' ? sayErrors(correct.error) : fault;
  return (
    <form
      className={styles.edit}
      onSubmit={(event) => {
        event.preventDefault();
        letIn();
      }}
    >
      <div className={`${fieldStyles.field} ${styles.editor}`}>
        <label htmlFor={id} className={fieldStyles.label}>
          {line.readable ? 'The line, read as its delivery was' : 'The fields of the reading, as JSON'}
        </label>
        <textarea
          id={id}
          ref={field}
          rows={Math.min(10, 2 + Math.floor(text.length / 70))}
          spellCheck={false}
          value={text}
          aria-invalid={said !== ''}
          aria-describedby={said === '' ? undefined : `${id}-error`}
          onChange={(event) => setText(event.target.value)}
        />
        {said !== '' && (
          <p id={`${id}-error`} className={fieldStyles.error} role="alert">
            {said}
          </p>
        )}
      </div>
      {aside.isError && <ProblemNote error={aside.error} />}
      <div className={formStyles.buttons}>
        <Button kind="main" type="submit" disabled={correct.isPending}>
          Let in, next
        </Button>
        <Button
          disabled={aside.isPending}
          onClick={() => aside.mutate({ ids: [line.id], state: 'laid_aside' }, { onSuccess: onSettled })}
        >
          Lay aside
        </Button>
        <Button kind="quiet" onClick={onLeave}>
          Leave it
        </Button>
      </div>
    </form>
  );
}

function toCorrection({ readable }: KeptLine, text: string): Correction | null {
  if (readable) return { raw: text };
  try {
    const reading: unknown = JSON.parse(text);
    return typeof reading === 'object' && reading !== null && !Array.isArray(reading)
      ? { reading: reading as Record<string, unknown> }
      : null;
  } catch {
    return null;
  }
}

function sayErrors(error: unknown): string {
  if (typeof error !== 'object' || error === null) return '';
  const errors: unknown = Reflect.get(error, 'errors');
  if (Array.isArray(errors) && errors.length > 0)
    return errors.map(({ field, message }) => `${field} ${message}`.trim()).join('; ');
  return String(Reflect.get(error, 'detail') ?? 'The server did not answer. Try again.');
}
