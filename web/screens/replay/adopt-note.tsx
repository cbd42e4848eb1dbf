import { Link } from '@tanstack/react-router';
import { seesSettings } from '#web/api/role-rights.ts';
import { useFleetNames } from '#web/api/use-fleet-names.ts';
import { usePerson } from '#web/api/use-session.ts';
import parts from '#web/ui/parts.module.css';
import type { Difference } from './list-differences.ts';
import styles from './replay.module.css';

/** To where an admin sets what was tried, with the figures to enter. */
export function AdoptNote({ differences }: { differences: readonly Difference[] }) {
  const person = usePerson();
  const names = useFleetNames();
  if (person === null || !seesSettings(person.role))
    return (
      <p className={styles.soft}>
        Should these settings be used from now on, an admin enters them in the settings.
      </p>
    );
  const limits = differences.flatMap(({ platform }) => (platform === null ? [] : [platform]));
  return (
    <section className={parts.part} aria-labelledby="adopt">
      <h2 id="adopt">Use these settings from now on</h2>
      <ul className={styles.lines}>
        {differences.map(({ what, tried }) => (
          <li key={what}>
            {what}: {tried}
          </li>
        ))}
      </ul>
      <p className={styles.links}>
        {differences.some(({ platform }) => platform === null) && (
          <Link to="/settings/thresholds">Settings: thresholds</Link>
        )}
        {limits.map((platform) => (
          <Link key={platform} to="/settings/platforms" search={{ open: platform }}>
            Settings: {names.platform(platform)}
          </Link>
        ))}
      </p>
      <p className={styles.soft}>
        The settings show what a change does to the list of today before it is saved.
      </p>
    </section>
  );
}
