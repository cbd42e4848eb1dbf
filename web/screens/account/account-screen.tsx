import { useEffect } from 'react';
import { seesDigest } from '#web/api/role-rights.ts';
import { useDepotName } from '#web/api/use-fleet-names.ts';
import { usePerson } from '#web/api/use-session.ts';
import { roleWords } from '#web/ui/role-words.ts';
import { sayDepots } from '#web/ui/say-depots.ts';
import styles from './account-screen.module.css';
import { DigestMail } from './digest-mail.tsx';
import { OwnSessions } from './own-sessions.tsx';
import { PasswordForm } from './password-form.tsx';

/** What this person is here, their password, and where they are signed in. */
export function AccountScreen() {
  const person = usePerson();
  const depotName = useDepotName();
  useEffect(() => {
    document.title = 'Your account · Slipdrift';
  }, []);
  if (person === null) return null;
  return (
    <div className={styles.page}>
      <header className={styles.head}>
        <h1>{person.name}</h1>
        <dl className={styles.facts}>
          <div>
            <dt>E-mail</dt>
            <dd>{person.email}</dd>
          </div>
          <div>
            <dt>Role</dt>
            <dd>
              {person.role}: {roleWords[person.role]}
            </dd>
          </div>
          <div>
            <dt>Depots</dt>
            <dd>{sayDepots(person.depots, depotName)}</dd>
          </div>
        </dl>
        <p className={styles.note}>An admin changes name, role and depots.</p>
      </header>
      {seesDigest(person.role) && <DigestMail email={person.email} />}
      <PasswordForm email={person.email} />
      <OwnSessions />
    </div>
  );
}
