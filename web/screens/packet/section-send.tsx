import type { ReactNode } from 'react';
import { Button } from '#web/ui/button.tsx';
import { leadsOn, SendProblem } from './send-problem.tsx';
import styles from './step-form.module.css';

interface Props {
  label: string;
  isTyped: boolean;
  isPending: boolean;
  error: unknown;
  /** somebody else changed the same section since the typing began */
  isOther: boolean;
  /** what is stored now, in words */
  stored: ReactNode;
  onSend: () => void;
  onLook: () => void;
  onReplace: () => void;
  onDrop: () => void;
}

/** The way of a section to the server, and what stands in it. */
export function SectionSend(props: Props) {
  const { label, isTyped, isPending, error, isOther, stored, onSend, onLook, onReplace, onDrop } = props;
  if (isOther && isTyped)
    return (
      <div className={styles.other} role="alert">
        <p>
          <strong>Somebody else changed this meanwhile.</strong> What you typed is kept on this device and was
          not sent. Stored now:
        </p>
        {stored}
        <div className={styles.send}>
          <Button kind="main" disabled={isPending} onClick={onReplace}>
            Send mine in its place
          </Button>
          <Button disabled={isPending} onClick={onDrop}>
            Take what is stored
          </Button>
        </div>
      </div>
    );
  return (
    <>
      {error !== null && <SendProblem error={error} onAgain={onSend} onLook={onLook} />}
      {isTyped && (
        <div className={styles.send}>
          {!leadsOn(error) && (
            <>
              <Button type="submit" kind="main" disabled={isPending}>
                {isPending ? 'Saving' : label}
              </Button>
              <span className={styles.unsent}>
                {isPending ? 'Being sent' : 'Kept on this device, not sent yet'}
              </span>
            </>
          )}
          <Button kind="quiet" disabled={isPending} onClick={onDrop}>
            Leave it as it was
          </Button>
        </div>
      )}
    </>
  );
}
