import { Link, useLocation } from '@tanstack/react-router';
import { type ReactNode, useEffect } from 'react';
import { ProblemError } from '#web/api/problem-error.ts';
import { useOneTimeAddress, useOneTimePassword } from '#web/api/use-one-time.ts';
import { useSession } from '#web/api/use-session.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { sayPurpose } from './say-purpose.ts';
import { WelcomeForm } from './welcome-form.tsx';
import styles from './welcome-screen.module.css';

/** Behind a one-time address: the first admin, an invited person, or somebody who forgot a password. */
export function WelcomeScreen() {
  const token = useLocation({ select: ({ hash }) => hash });
  const use = useOneTimePassword();
  const isOver = use.error instanceof ProblemError && use.error.status === 404;
  const { data, isPending, isError, error, refetch } = useOneTimeAddress(token, !use.isSuccess);
  useEffect(() => {
    document.title = 'Welcome · Slipdrift';
  }, []);

  if (use.isSuccess) return <Frame title="You are signed in" />;
  if (token === '')
    return (
      <Frame title="The address is not complete">
        <p className={styles.lead}>
          A one-time address has a long part after <code>#</code>. Open it whole, as it was given to you.
        </p>
      </Frame>
    );
  if (isOver || (error instanceof ProblemError && error.status === 404)) return <Used />;
  if (isError && data === undefined)
    return (
      <Frame title="Welcome">
        <ProblemNote error={error} onRetry={() => void refetch()} />
      </Frame>
    );
  if (isPending || data === undefined)
    return (
      <Frame title="Welcome">
        <p role="status">Looking what this address is for</p>
      </Frame>
    );
  const { title, words } = sayPurpose(data);
  return (
    <Frame title={title}>
      <p className={styles.lead}>{words}</p>
      <SomebodyElse email={data.email} />
      <WelcomeForm key={token} token={token} offered={data} use={use} />
    </Frame>
  );
}

function Frame({ title, children }: { title: string; children?: ReactNode }) {
  return (
    <div className={styles.page}>
      <h1>{title}</h1>
      {children}
    </div>
  );
}

function Used() {
  return (
    <Frame title="This address no longer works">
      <p className={styles.lead}>It was used already, or its time has run out. Each works once.</p>
      <p>
        If you have set your password: <Link to="/sign-in">sign in</Link>. Otherwise ask whoever gave it to
        you, or any admin, for a new one. Where no account exists yet, the server names a new one when it
        starts.
      </p>
    </Frame>
  );
}

/** Whoever tries an address that was made for somebody else should know what will happen. */
function SomebodyElse({ email }: { email: string | null }) {
  const person = useSession().data?.session.person;
  if (person == null || person.email === email) return null;
  return (
    <p className={styles.note}>
      In this browser {person.name} is signed in. Setting the password here signs {person.name} out of it.
    </p>
  );
}
