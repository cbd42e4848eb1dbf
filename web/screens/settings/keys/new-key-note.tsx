import { useEffect, useRef } from 'react';
import type { NewKey } from '#server/contract/keys.ts';
import styles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { CopyLine } from '#web/ui/copy-line.tsx';
import { writeExample } from './write-example.ts';

/** The secret, shown this once. */
export function NewKeyNote({ made, onDone }: { made: NewKey; onDone: () => void }) {
  const note = useRef<HTMLElement>(null);
  useEffect(() => note.current?.focus(), []);
  const { key, secret } = made;
  return (
    <section className={styles.once} ref={note} tabIndex={-1} aria-label="New key">
      <p>
        <strong>Key for {key.name}.</strong> Copy it now: it is not shown again, and Slipdrift itself keeps
        only a digest of it.
      </p>
      <CopyLine name="Key" value={secret} />
      <p>A call to try it, with the key in the variable KEY:</p>
      <pre>
        <code>{writeExample(key.right, window.location.origin)}</code>
      </pre>
      <p>
        <Button onClick={onDone}>Done</Button>
      </p>
    </section>
  );
}
