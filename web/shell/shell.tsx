import { Link, Outlet, useLocation } from '@tanstack/react-router';
import { lazy, type ReactNode, Suspense, useEffect, useRef } from 'react';
import { nameWho } from '#web/api/session.ts';
import { useSession } from '#web/api/use-session.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { useThemeOnRoot } from '#web/ui/use-theme.ts';
import { KeyboardHelp } from './keyboard-help.tsx';
import { Navigation } from './navigation.tsx';
import { PersonMenu } from './person-menu.tsx';
import { ReaderChoices } from './reader-choices.tsx';
import { Refused } from './refused.tsx';
import { sayRefusal } from './say-refusal.ts';
import styles from './shell.module.css';

const SignInScreen = lazy(async () => ({
  default: (await import('#web/screens/sign-in/sign-in-screen.tsx')).SignInScreen,
}));

/** What surrounds every screen; while nobody is signed in, the sign-in stands in the place of all but one. */
export function Shell() {
  useThemeOnRoot();
  const pathname = useLocation({ select: (location) => location.pathname });
  const { data, isError, error, refetch } = useSession();
  const main = useRef<HTMLElement>(null);
  const isWelcome = pathname === '/welcome';
  const person = isWelcome ? null : (data?.session.person ?? null);
  const who = person === null || data === undefined ? '' : nameWho(data.session);

  // What had the focus at the door is gone: reading and keys go on in the screen.
  const before = useRef('');
  useEffect(() => {
    if (before.current === '' && who !== '' && document.activeElement === document.body)
      main.current?.focus();
    before.current = who;
  }, [who]);

  let content: ReactNode = null;
  if (isWelcome) content = <Outlet />;
  else if (person !== null) {
    const refusal = sayRefusal(pathname, person.role);
    content = refusal === null ? <Outlet key={who} /> : <Refused words={refusal} person={person} />;
  } else if (data !== undefined) content = <SignInScreen {...data} />;
  else if (isError)
    content = (
      <div className={styles.page}>
        <ProblemNote error={error} onRetry={() => void refetch()} />
      </div>
    );
  return (
    <>
      <a className={styles.skip} href="#content">
        Skip to the content
      </a>
      <header className={styles.header}>
        <Link to="/" className={styles.name}>
          <svg width="26" height="18" viewBox="0 0 26 18" aria-hidden="true">
            <path d="M2 1v16" stroke="currentColor" strokeWidth="2.5" />
            <path d="M2 9h23" stroke="currentColor" strokeWidth="1.25" />
            <path d="M9 9h9" stroke="var(--accent)" strokeWidth="7" />
          </svg>
          slipdrift
        </Link>
        {person !== null && <Navigation role={person.role} />}
        <div className={styles.tools}>
          {person !== null && <KeyboardHelp />}
          <ReaderChoices />
          {person !== null && <PersonMenu key={who} person={person} />}
        </div>
      </header>
      <main id="content" ref={main} className={styles.main} tabIndex={-1} aria-busy={content === null}>
        <Suspense fallback={null}>{content}</Suspense>
      </main>
    </>
  );
}
