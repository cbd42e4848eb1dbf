import { useLocation } from '@tanstack/react-router';
import { useEffect } from 'react';
import type { Seen } from '#web/api/session.ts';
import formStyles from '#web/ui/form.module.css';
import { CompanySignIn } from './company-sign-in.tsx';
import { DemoAccounts } from './demo-accounts.tsx';
import { NoAccountYet } from './no-account-yet.tsx';
import { readOwnPath } from './own-path.ts';
import { PasswordSignIn } from './password-sign-in.tsx';
import styles from './sign-in-screen.module.css';
import { parseSignInSearch, sayCompanyReason } from './sign-in-search.ts';

const leftWords = {
  ended:
    'Your session has ended. Sign in again: the address is kept, and you come back to what you looked at.',
  signed_out: 'You are signed out on this device.',
};

/** Stands in the place of any screen while nobody is signed in. */
export function SignInScreen({ session, left }: Seen) {
  const { pathname, href, search } = useLocation();
  const { to, company } = parseSignInSearch({ ...search });
  useEffect(() => {
    document.title = 'Sign in · Slipdrift';
  }, []);
  if (session.first) return <NoAccountYet />;
  const back = pathname === '/sign-in' ? (to ?? '/') : readOwnPath(href);
  return (
    <div className={styles.page} data-kind={session.demo === null ? 'plain' : 'demo'}>
      <div className={styles.words}>
        <h1>Sign in</h1>
        {left !== null && (
          <p className={formStyles.done} role="status">
            {leftWords[left]}
          </p>
        )}
        {pathname === '/sign-in' && company !== undefined && (
          <p className={formStyles.wrong} role="alert">
            {sayCompanyReason(company)}
          </p>
        )}
      </div>
      {session.demo !== null && <DemoAccounts accounts={session.demo} />}
      <div className={styles.own}>
        {session.company !== null && <CompanySignIn name={session.company.name} to={back} />}
        <PasswordSignIn takesFocus={session.demo === null} isSecond={session.demo !== null} />
      </div>
    </div>
  );
}
