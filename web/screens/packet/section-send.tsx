import { type ReactNode, useEffect, useRef, useState } from 'react';
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
  const [told, setTold] = useState('');
  const isSent = useRef(false);
  const status = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    if (isPending) isSent.current = true;
    else if (isTyped) isSent.current = false;
    setTold(isSent.current && !isPending ? 'Saved.' : '');
    if (!isPending) isSent.current = false;
  }, [isPending, isTyped]);
  // The button that sent it is gone.
  useEffect(() => {
    if (told !== '' && document.activeElement === document.body)
      status.current?.focus({ preventScroll: true });
  }, [told]);
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
      <p ref={status} className={styles.told} role="status" tabIndex={-1}>
        {told}
      </p>
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
