import { Link, useParams } from '@tanstack/react-router';
import type { Role } from '#server/contract/words.ts';
import {
  seesAnalysis,
  seesBayPlan,
  seesDigest,
  seesIntake,
  seesPlatforms,
  seesSettings,
  setsUpVehicles,
} from '#web/api/role-rights.ts';
import styles from './shell.module.css';

interface Props {
  role: Role;
  /** null: all */
  depots: readonly string[] | null;
}

/** Only screens that exist and that this role may open are named. */
export function Navigation({ role, depots }: Props) {
  const { vehicle } = useParams({ strict: false });
  // The shop begins with them.
  const packets = (
    <Link to="/packets" activeOptions={{ includeSearch: false }}>
      Packets
    </Link>
  );
  return (
    <nav className={styles.nav} aria-label="Screens">
      {role === 'shop' && packets}
      <Link to="/" activeOptions={{ exact: true, includeSearch: false }}>
        {role === 'shop' ? 'Sent to you' : 'Inspection list'}
      </Link>
      {seesDigest(role) && (
        <Link to="/digest" activeOptions={{ includeSearch: false }}>
          This week
        </Link>
      )}
      {seesBayPlan(role) && (
        <Link to="/bay-plan" activeOptions={{ includeSearch: false }}>
          Bay plan
        </Link>
      )}
      {role !== 'shop' && packets}
      {seesPlatforms(role) && (
        <Link to="/platforms" activeOptions={{ includeSearch: false }}>
          Platforms
        </Link>
      )}
      {seesAnalysis(role) && (
        <Link to="/analysis" activeOptions={{ includeSearch: false }}>
          Analysis
        </Link>
      )}
      {seesIntake(role, depots) && (
        <Link to="/intake" activeOptions={{ includeSearch: false }}>
          Intake
        </Link>
      )}
      {setsUpVehicles(role) && !seesIntake(role, depots) && (
        <Link to="/intake/set-up" activeOptions={{ includeSearch: false }}>
          Set-up files
        </Link>
      )}
      {seesSettings(role) && (
        <Link to="/settings" activeOptions={{ includeSearch: false }}>
          Settings
        </Link>
      )}
      {vehicle !== undefined && (
        <Link to="/vehicles/$vehicle" params={{ vehicle }} activeOptions={{ includeSearch: false }}>
          <span className={styles.clip}>Vehicle {vehicle}</span>
        </Link>
      )}
    </nav>
  );
}
