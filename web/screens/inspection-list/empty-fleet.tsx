import { Link } from '@tanstack/react-router';
import { usePerson } from '#web/api/use-session.ts';
import styles from './inspection-list.module.css';

/** What the first user sees: how readings get in. */
export function EmptyFleet() {
  const person = usePerson();
  const command = [
    `curl ${window.location.origin}/api/readings \\`,
    `  -H 'Authorization: Bearer <key>' \\`,
    `  -H 'Content-Type: application/json' \\`,
    `  -d '[{"vehicle": "B-1207", "at": "2026-03-04T05:06:07Z",`,
    `        "odometer_km": 187412, "slip_rpm": 12, "duty_pct": 85,`,
    `        "fluid_c": 84, "load_pct": 48}]'`,
  ].join('\n');
  if (person?.depots != null)
    return (
      <div className={styles.page}>
        <h1>Inspection list</h1>
        <p className={styles.lead}>
          No vehicle of your depots has sent a reading yet. A vehicle appears here once it is registered for
          one of them; which depots are yours stands in <Link to="/account">your account</Link>.
        </p>
      </div>
    );
  return (
    <div className={styles.page}>
      <h1>Inspection list</h1>
      <p className={styles.lead}>
        No vehicle has sent a reading yet. Send the first one: a vehicle is created by its first reading,
        nothing has to be registered before.
      </p>
      <div className={styles.example}>
        <h2>From a gateway</h2>
        <pre>
          <code>{command}</code>
        </pre>
        <p>
          {person?.role === 'admin' ? (
            <>
              Each gateway brings a key of its own: <Link to="/settings/keys">make one</Link>.
            </>
          ) : (
            'Each gateway brings a key of its own; an admin makes it.'
          )}
        </p>
      </div>
      <div className={styles.example}>
        <h2>From files</h2>
        <pre>
          <code>node server/cli/slipdrift.mjs import readings.csv</code>
        </pre>
        <p>
          CSV with a header line, NDJSON or JSON, also gzip. The answer names each line that could not be a
          reading; the others are stored.
        </p>
      </div>
    </div>
  );
}
