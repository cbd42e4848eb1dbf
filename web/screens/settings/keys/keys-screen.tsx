import { useEffect, useState } from 'react';
import type { AccessKey, NewKey } from '#server/contract/keys.ts';
import { useKeys, useRevokeKey } from '#web/api/use-keys.ts';
import styles from '#web/screens/settings/settings.module.css';
import { AskDialog } from '#web/ui/ask-dialog.tsx';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { KeyForm } from './key-form.tsx';
import { KeysTable } from './keys-table.tsx';
import { NewKeyNote } from './new-key-note.tsx';

/** What machines come in with. */
export function KeysScreen() {
  const { data, isPending, isError, error, refetch } = useKeys();
  const revoke = useRevokeKey();
  const [isMaking, setMaking] = useState(false);
  const [made, setMade] = useState<NewKey | null>(null);
  const [asked, setAsked] = useState<AccessKey | null>(null);
  useEffect(() => {
    document.title = 'Keys · Slipdrift';
  }, []);
  return (
    <div className={styles.screen}>
      <header className={styles.head}>
        <div className={styles.words}>
          <h1>Keys</h1>
          <p>
            A machine that calls Slipdrift brings a key. A gateway gets one that delivers readings, no more.
          </p>
        </div>
        {!isMaking && (
          <Button
            kind="main"
            onClick={() => {
              setMade(null);
              setMaking(true);
            }}
          >
            New key
          </Button>
        )}
      </header>
      {isMaking && (
        <KeyForm
          onMade={(next) => {
            setMade(next);
            setMaking(false);
          }}
          onLeave={() => setMaking(false)}
        />
      )}
      {made !== null && <NewKeyNote made={made} onDone={() => setMade(null)} />}
      {revoke.isError && <ProblemNote error={revoke.error} />}
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {isPending && <p role="status">Loading the keys</p>}
      {data?.length === 0 && (
        <p className={styles.none}>
          No key yet. The first gateway needs one: make it here, and put it into the gateway.
        </p>
      )}
      {data !== undefined && data.length > 0 && <KeysTable keys={data} onRevoke={setAsked} />}
      {asked !== null && (
        <AskDialog
          title={`Revoke the key of ${asked.name}?`}
          yes="Revoke the key"
          onNo={() => setAsked(null)}
          onYes={() => {
            setAsked(null);
            revoke.mutate(asked.id);
          }}
        >
          <p>
            Whatever calls with it is refused from then on, and the key cannot be brought back. Readings that
            came with it stay.
          </p>
        </AskDialog>
      )}
    </div>
  );
}
