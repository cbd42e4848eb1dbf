import { Link, Outlet, useLocation, useNavigate } from '@tanstack/react-router';
import { lazy, type ReactNode, Suspense, useEffect, useRef } from 'react';
import type { Session } from '#server/contract/people.ts';
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

/** What surrounds every screen; what a link opens has nothing around it that leads to others. */
export function Shell() {
  useThemeOnRoot();
  const pathname = useLocation({ select: (location) => location.pathname });
  return pathname === '/shared' ? <LinkShell /> : <OwnShell pathname={pathname} />;
}

function LinkShell() {
  return (
    <Frame
      name={
        <span className={styles.name}>
          <Name />
        </span>
      }
      tools={<ReaderChoices />}
    >
      <main id="content" className={styles.main} tabIndex={-1}>
        <Suspense fallback={null}>
          <Outlet />
        </Suspense>
      </main>
    </Frame>
  );
}

/** While nobody is signed in, the sign-in stands in the place of all screens but one. */
function OwnShell({ pathname }: { pathname: string }) {
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
  useShopStart(data?.session ?? null, pathname);

  let content: ReactNode = null;
  if (isWelcome) content = <Outlet />;
  else if (person !== null) {
    const refusal = sayRefusal(pathname, person.role, person.depots);
    content = refusal === null ? <Outlet key={who} /> : <Refused words={refusal} person={person} />;
  } else if (data !== undefined) content = <SignInScreen {...data} />;
  else if (isError)
    content = (
      <div className={styles.page}>
        <ProblemNote error={error} onRetry={() => void refetch()} />
      </div>
    );
  return (
    <Frame
      name={
        <Link to={person?.role === 'shop' ? '/packets' : '/'} className={styles.name}>
          <Name />
        </Link>
      }
      navigation={person !== null && <Navigation role={person.role} depots={person.depots} />}
      tools={
        <>
          {person !== null && <KeyboardHelp />}
          <ReaderChoices />
          {person !== null && <PersonMenu key={who} person={person} />}
        </>
      }
    >
      <main id="content" ref={main} className={styles.main} tabIndex={-1} aria-busy={content === null}>
        <Suspense fallback={null}>{content}</Suspense>
      </main>
    </Frame>
  );
}

/** Who signs in for a shop at the plain address begins with the packets. An address that is opened later is kept. */
function useShopStart(session: Session | null, pathname: string): void {
  const navigate = useNavigate();
  const wasNobody = useRef(false);
  useEffect(() => {
    if (session === null) return;
    const begins = wasNobody.current && session.person?.role === 'shop';
    wasNobody.current = session.person === null;
    if (begins && pathname === '/') void navigate({ to: '/packets', replace: true });
  }, [session, pathname, navigate]);
}

interface FrameProps {
  name: ReactNode;
  navigation?: ReactNode;
  tools: ReactNode;
  children: ReactNode;
}

const Frame = ({ name, navigation, tools, children }: FrameProps) => (
  <>
    <a className={styles.skip} href="#content">
      Skip to the content
    </a>
    <header className={styles.header}>
      {name}
      {navigation}
      <div className={styles.tools}>{tools}</div>
    </header>
    {children}
  </>
);

const Name = () => (
  <>
    <svg width="26" height="18" viewBox="0 0 26 18" aria-hidden="true">
      <path d="M2 1v16" stroke="currentColor" strokeWidth="2.5" />
      <path d="M2 9h23" stroke="currentColor" strokeWidth="1.25" />
      <path d="M9 9h9" stroke="var(--accent)" strokeWidth="7" />
    </svg>
    slipdrift
  </>
);
