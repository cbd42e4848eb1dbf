import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import type { OwnSession } from '#server/contract/people.ts';
import { useEndSession, useOwnSessions } from '#web/api/use-account.ts';
import { useSignOut } from '#web/api/use-session.ts';
import { formatDate, formatMoment } from '#web/format/format-date.ts';
import { AskDialog } from '#web/ui/ask-dialog.tsx';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './account-screen.module.css';
import { sayDevice } from './say-device.ts';

export function OwnSessions() {
  const { data, isPending, isError, error, refetch } = useOwnSessions();
  const end = useEndSession();
  const everywhere = useSignOut('everywhere');
  const navigate = useNavigate();
  const [asks, setAsks] = useState(false);
  const leave = () =>
    everywhere.mutate(undefined, { onSuccess: () => void navigate({ to: '/sign-in', replace: true }) });
  return (
    <section className={styles.part} aria-labelledby="places-title">
      <h2 id="places-title">Where you are signed in</h2>
      {isPending && <p role="status">Loading</p>}
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {(end.error ?? everywhere.error) !== null && <ProblemNote error={end.error ?? everywhere.error} />}
      <ul className={styles.places}>
        {data?.map((session) => (
          <Place
            key={session.id}
            session={session}
            isEnding={end.isPending && end.variables === session.id}
            onEnd={() => end.mutate(session.id)}
          />
        ))}
      </ul>
      {data !== undefined && (
        <p>
          <Button disabled={everywhere.isPending} onClick={() => setAsks(true)}>
            Sign out everywhere
          </Button>
        </p>
      )}
      {asks && (
        <AskDialog
          title="Sign out everywhere?"
          yes="Sign out everywhere"
          no="Stay signed in"
          onNo={() => setAsks(false)}
          onYes={() => {
            setAsks(false);
            leave();
          }}
        >
          <p>
            You are signed out on every device at once, on this one too. Then sign in again where you need to.
          </p>
        </AskDialog>
      )}
    </section>
  );
}

interface PlaceProps {
  session: OwnSession;
  isEnding: boolean;
  onEnd: () => void;
}

function Place({ session, isEnding, onEnd }: PlaceProps) {
  const { device, from, began_at, seen_at, ends_at, current } = session;
  const name = sayDevice(device);
  return (
    <li className={styles.place}>
      <p className={styles.device}>
        <strong>{current ? `${name}, this one` : name}</strong>
        <span title={device ?? undefined}>{device ?? 'it does not say what it is'}</span>
      </p>
      <dl className={styles.when}>
        <div>
          <dt>since</dt>
          <dd>{formatMoment(began_at)}</dd>
        </div>
        <div>
          <dt>last seen</dt>
          <dd>{formatDate(seen_at)}</dd>
        </div>
        <div>
          <dt>until</dt>
          <dd>{formatDate(ends_at)}</dd>
        </div>
        <div>
          <dt>from</dt>
          <dd>{from ?? 'unknown'}</dd>
        </div>
      </dl>
      <div className={styles.act}>
        {!current && (
          <Button kind="quiet" disabled={isEnding} onClick={onEnd} aria-label={`End ${name}, ${from ?? ''}`}>
            End
          </Button>
        )}
      </div>
    </li>
  );
}
