import { type ReactNode, useEffect, useRef, useState } from 'react';
import { Button } from '#web/ui/button.tsx';
import { leadsOn, SendProblem } from './send-problem.tsx';
import styles from './step-form.module.css';
import type { useReportSection } from './use-report-section.ts';

interface Props {
  label: string;
  section: ReturnType<typeof useReportSection>;
  isTyped: boolean;
  /** what is stored now, in words */
  stored: ReactNode;
  onSend: () => void;
  onLook: () => void;
  onDrop: () => void;
}

/** The way of a section to the server, and what stands in it. */
export function SectionSend(props: Props) {
  const { label, section, isTyped, stored, onSend, onLook, onDrop } = props;
  const { isPending, error } = section.save;
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
  if (section.isOther && isTyped)
    return (
      <div className={styles.other} role="alert">
        <p>
          <strong>Somebody else changed this meanwhile.</strong> What you typed is kept on this device and was
          not sent. Stored now:
        </p>
        {stored}
        <div className={styles.send}>
          <Button
            kind="main"
            disabled={isPending}
            onClick={() => {
              section.takeSeen();
              onSend();
            }}
          >
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
      {error !== null && (
        <SendProblem
          error={error}
          onAgain={onSend}
          onLook={() => {
            section.save.reset();
            onLook();
          }}
        />
      )}
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
