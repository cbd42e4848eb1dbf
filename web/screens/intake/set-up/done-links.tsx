import { Link } from '@tanstack/react-router';
import type { Role } from '#server/contract/words.ts';
import { type SetUpKind, setUpKinds } from '#server/contract/words.ts';
import { seesSettings } from '#web/api/role-rights.ts';
import styles from './set-up.module.css';

/** Where what was set up is seen, and which file comes next. */
export function DoneLinks({ kind, role }: { kind: SetUpKind; role: Role }) {
  const next = setUpKinds[setUpKinds.indexOf(kind) + 1];
  return (
    <p className={styles.links}>
      {kind === 'depots' && (
        <Link to={seesSettings(role) ? '/settings/depots' : '/bay-plan'}>See the depots</Link>
      )}
      {kind === 'platforms' && <Link to="/platforms">See the platforms</Link>}
      {kind === 'vehicles' && <Link to="/">See the inspection list</Link>}
      {(kind === 'lives' || kind === 'failures') && <Link to="/analysis/lives">See the lives</Link>}
      {seesSettings(role) && <Link to="/settings/changes">Who changed what</Link>}
      {next !== undefined && (
        <Link to="/intake/set-up" search={{ kind: next }}>
          Go on with {next}
        </Link>
      )}
    </p>
  );
}
