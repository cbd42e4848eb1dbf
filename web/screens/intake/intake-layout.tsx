import { Link, Outlet } from '@tanstack/react-router';
import { seesIntake } from '#web/api/role-rights.ts';
import { usePerson } from '#web/api/use-session.ts';
import styles from '#web/ui/screen-parts.module.css';

/** What came in, what did not, and who has stopped sending. */
export function IntakeLayout() {
  const person = usePerson();
  const seesAll = person === null || seesIntake(person.role, person.depots);
  return (
    <div className={styles.page}>
      <nav className={styles.nav} aria-label="Intake">
        {seesAll && (
          <>
            <Link to="/intake/deliveries" activeOptions={{ includeSearch: false }}>
              Deliveries
            </Link>
            <Link to="/intake/refused" activeOptions={{ includeSearch: false }}>
              Refused lines
            </Link>
            <Link to="/intake/gateways" activeOptions={{ includeSearch: false }}>
              Gateways
            </Link>
            <Link to="/intake/vehicles" activeOptions={{ includeSearch: false }}>
              Vehicles to complete
            </Link>
            <Link to="/intake/bring" activeOptions={{ includeSearch: false }}>
              Bring a file
            </Link>
          </>
        )}
        <Link to="/intake/set-up" activeOptions={{ includeSearch: false }}>
          Set-up files
        </Link>
      </nav>
      <Outlet />
    </div>
  );
}
