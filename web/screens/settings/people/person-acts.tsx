import { useState } from 'react';
import type { ListedPerson, OfferedAddress } from '#server/contract/people.ts';
import { useChangePerson, useOfferAddress, useSignOutPerson } from '#web/api/use-people.ts';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { AskDialog } from '#web/ui/ask-dialog.tsx';
import { Button } from '#web/ui/button.tsx';
import styles from '#web/ui/form.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { OfferedNote } from './offered-note.tsx';

/** Getting in and staying out: one-time address, unlock, sign out, close. */
export function PersonActs({ person }: { person: ListedPerson }) {
  const offer = useOfferAddress(person.id);
  const state = useChangePerson(person.id);
  const signOut = useSignOutPerson(person.id);
  const [offered, setOffered] = useState<OfferedAddress | null>(null);
  const [asks, setAsks] = useState<'close' | 'offer' | null>(null);
  const error = offer.error ?? state.error ?? signOut.error;
  const isBusy = offer.isPending || state.isPending || signOut.isPending;
  const makeAddress = () => offer.mutate(undefined, { onSuccess: setOffered });
  return (
    <div className={settingsStyles.stack}>
      {error !== null && <ProblemNote error={error} />}
      {offered !== null && <OfferedNote offered={offered} onDone={() => setOffered(null)} />}
      <div className={styles.buttons}>
        {person.state === 'locked' && (
          <Button disabled={isBusy} onClick={() => state.mutate({ unlock: true })}>
            Unlock now
          </Button>
        )}
        {person.state !== 'closed' && (
          <Button
            disabled={isBusy}
            onClick={() => (person.state === 'invited' ? makeAddress() : setAsks('offer'))}
          >
            New one-time address
          </Button>
        )}
        {person.sessions > 0 && (
          <Button disabled={isBusy} onClick={() => signOut.mutate()}>
            Sign out everywhere
          </Button>
        )}
        {person.state === 'closed' ? (
          <Button disabled={isBusy} onClick={() => state.mutate({ closed: false })}>
            Open the account again
          </Button>
        ) : (
          <Button kind="grave" disabled={isBusy} onClick={() => setAsks('close')}>
            Close the account
          </Button>
        )}
      </div>
      {asks === 'offer' && (
        <AskDialog
          title={`A new password for ${person.name}?`}
          yes="Make the address"
          kind="main"
          onNo={() => setAsks(null)}
          onYes={() => {
            setAsks(null);
            makeAddress();
          }}
        >
          <p>
            You get a one-time address with which {person.name} sets a new password. An address that you made
            before no longer works then.
          </p>
        </AskDialog>
      )}
      {asks === 'close' && (
        <AskDialog
          title={`Close the account of ${person.name}?`}
          yes="Close the account"
          onNo={() => setAsks(null)}
          onYes={() => {
            setAsks(null);
            state.mutate({ closed: true });
          }}
        >
          <p>
            {person.name} is signed out everywhere at once and can no longer sign in. What they did stays on
            record. You can open the account again later.
          </p>
        </AskDialog>
      )}
    </div>
  );
}
