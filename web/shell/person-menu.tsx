import { Link, useNavigate } from '@tanstack/react-router';
import { useRef } from 'react';
import type { Person } from '#server/contract/people.ts';
import { useDepotName } from '#web/api/use-fleet-names.ts';
import { useSignOut } from '#web/api/use-session.ts';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { sayDepots } from '#web/ui/say-depots.ts';
import { useCloseOutside } from '#web/ui/use-close-outside.ts';
import styles from './shell.module.css';

/** Who is signed in, with the way to their account and out. */
export function PersonMenu({ person }: { person: Person }) {
  const panel = useRef<HTMLDetailsElement>(null);
  useCloseOutside(panel);
  const depotName = useDepotName();
  const navigate = useNavigate();
  const signOut = useSignOut('here');
  const close = () => {
    if (panel.current !== null) panel.current.open = false;
  };
  return (
    <details className={styles.choices} ref={panel}>
      <summary className={styles.tool}>
        <span className="only-spoken">Signed in: </span>
        <span className={styles.person}>{person.name}</span>
      </summary>
      <div className={styles.panel}>
        <p className={styles.who}>
          <strong>{person.name}</strong>
          <span>{person.email}</span>
          <span>
            {person.role}, {sayDepots(person.depots, depotName)}
          </span>
        </p>
        <Link to="/account" className={styles.panelLink} onClick={close}>
          Your account
        </Link>
        {signOut.isError && <ProblemNote error={signOut.error} />}
        <Button
          disabled={signOut.isPending}
          onClick={() =>
            signOut.mutate(undefined, { onSuccess: () => void navigate({ to: '/sign-in', replace: true }) })
          }
        >
          Sign out
        </Button>
      </div>
    </details>
  );
}
