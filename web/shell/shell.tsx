import { Link, Outlet, useParams } from '@tanstack/react-router';
import { Suspense } from 'react';
import { accessKey } from '#web/api/access-key.ts';
import { useThemeOnRoot } from '#web/ui/use-theme.ts';
import { KeyForm } from './key-form.tsx';
import { KeyboardHelp } from './keyboard-help.tsx';
import { ReaderChoices } from './reader-choices.tsx';
import styles from './shell.module.css';

/** What surrounds every screen. Only screens that exist are named. */
export function Shell() {
  useThemeOnRoot();
  const { vehicle } = useParams({ strict: false });
  const key = accessKey.use();
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
        <nav className={styles.nav} aria-label="Screens">
          <Link to="/" activeOptions={{ exact: true, includeSearch: false }}>
            Inspection list
          </Link>
          <Link to="/platforms" activeOptions={{ includeSearch: false }}>
            Platforms
          </Link>
          {vehicle !== undefined && (
            <Link to="/vehicles/$vehicle" params={{ vehicle }} activeOptions={{ includeSearch: false }}>
              <span className={styles.clip}>Vehicle {vehicle}</span>
            </Link>
          )}
        </nav>
        <div className={styles.tools}>
          <KeyboardHelp />
          <ReaderChoices />
        </div>
      </header>
      <main id="content" className={styles.main} tabIndex={-1}>
        {key === 'wanted' || key === 'wrong' ? (
          <KeyForm isWrong={key === 'wrong'} />
        ) : (
          <Suspense fallback={null}>
            <Outlet />
          </Suspense>
        )}
      </main>
    </>
  );
}
