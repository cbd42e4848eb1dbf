import { Link } from '@tanstack/react-router';
import type { ReplayRequest } from '#server/contract/replay.ts';
import { seesSettings } from '#web/api/role-rights.ts';
import { usePerson } from '#web/api/use-session.ts';
import styles from './replay.module.css';
import type { Difference } from './say-replay.ts';

/** To where an admin sets what was tried, with the figures to enter. */
export function AdoptNote({
  differences,
  request,
}: {
  differences: readonly Difference[];
  request: ReplayRequest;
}) {
  const person = usePerson();
  if (person === null || !seesSettings(person.role))
    return (
      <p className={styles.soft}>
        Should these settings be used from now on, an admin enters them in the settings.
      </p>
    );
  const limits = Object.entries(request.limits_rpm);
  return (
    <section className={styles.part} aria-labelledby="adopt">
      <h2 id="adopt">Use these settings from now on</h2>
      <ul className={styles.lines}>
        {differences.map(({ what, tried }) => (
          <li key={what}>
            Enter {tried} for: {what}
          </li>
        ))}
      </ul>
      <p className={styles.links}>
        {request.thresholds !== undefined && <Link to="/settings/thresholds">Settings: thresholds</Link>}
        {limits.map(([platform]) => (
          <Link key={platform} to="/settings/platforms" search={{ open: platform }}>
            Settings: platform {platform}
          </Link>
        ))}
      </p>
      <p className={styles.soft}>
        The settings show what a change does to the list of today before it is saved.
      </p>
    </section>
  );
}
