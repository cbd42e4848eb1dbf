import { useEffect, useRef } from 'react';
import { ProblemError } from '#web/api/problem-error.ts';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './send-problem.module.css';

/** Whether one press of the note goes on, so that a second button for the same would be too many. */
export const leadsOn = (error: unknown): boolean =>
  error instanceof ProblemError && (error.status === 0 || error.status === 409);

/** Sending the same file again would not help. */
export const isFileFault = (error: unknown): boolean => error instanceof ProblemError && error.status === 400;

interface Props {
  error: unknown;
  onAgain: () => void;
  onLook: () => void;
  /** what is kept, as the sentence begins */
  what?: string;
}

/** Why something was not stored, that it is still here, and the one press that goes on. */
export function SendProblem({ error, onAgain, onLook, what = 'What you typed' }: Props) {
  const status = error instanceof ProblemError ? error.status : null;
  if (status === 0)
    return (
      <div className={styles.note} role="alert">
        <p className={styles.title}>Kept on this device, not sent yet</p>
        <p>The server does not answer; the connection may be gone. {what} stays here.</p>
        <GoOn label="Send again" onClick={onAgain} />
      </div>
    );
  if (error instanceof ProblemError && status === 409)
    return (
      <div className={styles.note} role="alert">
        <p className={styles.title}>{error.title}</p>
        <p>{error.detail}</p>
        <p>{what} is kept on this device and was not sent.</p>
        <GoOn label="Look again" onClick={onLook} />
      </div>
    );
  return (
    <>
      <ProblemNote error={error} {...(status === 401 && { title: 'Not sent' })} />
      <p className={styles.kept}>{what} is kept on this device.</p>
    </>
  );
}

/** Stands where the button was that sent it, and takes its focus. */
function GoOn({ label, onClick }: { label: string; onClick: () => void }) {
  const button = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (document.activeElement === document.body) button.current?.focus();
  }, []);
  return (
    <Button ref={button} kind="main" onClick={onClick}>
      {label}
    </Button>
  );
}
