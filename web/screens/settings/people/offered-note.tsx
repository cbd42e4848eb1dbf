import { useEffect, useRef } from 'react';
import type { OfferedAddress } from '#server/contract/people.ts';
import { formatMoment } from '#web/format/format-date.ts';
import styles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { CopyLine } from '#web/ui/copy-line.tsx';

/** A one-time address, shown this once. */
export function OfferedNote({ offered, onDone }: { offered: OfferedAddress; onDone: () => void }) {
  const note = useRef<HTMLElement>(null);
  useEffect(() => note.current?.focus(), []);
  const { person, address, expires_at } = offered;
  return (
    <section className={styles.once} ref={note} tabIndex={-1} aria-label="One-time address">
      <p>
        <strong>One-time address for {person.name}.</strong> It works once, until {formatMoment(expires_at)},
        and is not shown again.
      </p>
      <CopyLine name="One-time address" value={address} />
      <p>
        Hand it over in person or by a channel that you trust: whoever opens it first sets the password of{' '}
        {person.email}.
      </p>
      <p>
        <Button onClick={onDone}>Done</Button>
      </p>
    </section>
  );
}
