import { useEffect, useRef } from 'react';
import type { NewWebhook } from '#server/contract/webhooks.ts';
import styles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { CopyLine } from '#web/ui/copy-line.tsx';

/** The secret, shown this once. */
export function NewWebhookNote({ made, onDone }: { made: NewWebhook; onDone: () => void }) {
  const note = useRef<HTMLElement>(null);
  useEffect(() => note.current?.focus(), []);
  const { webhook, secret } = made;
  return (
    <section className={styles.once} ref={note} tabIndex={-1} aria-label="New webhook">
      <p>
        <strong>Secret for {webhook.name}.</strong> Copy it now: it is not shown again.
      </p>
      <CopyLine name="Secret" value={secret} />
      <p>
        Every event is signed with it by RFC 9421 (hmac-sha256), in the headers Signature-Input and Signature.
        The header Slipdrift-Event names the event: drop one that you have seen.
      </p>
      <p>
        <Button onClick={onDone}>Done</Button>
      </p>
    </section>
  );
}
