import { useDepotName } from '#web/api/use-fleet-names.ts';
import { usePerson } from '#web/api/use-session.ts';
import { sayDepots } from '#web/ui/say-depots.ts';
import styles from './inspection-list.module.css';

/** What a shop sees while nothing waits for it. */
export function NothingSent() {
  const person = usePerson();
  const depotName = useDepotName();
  return (
    <div className={styles.page}>
      <h1>Sent to you</h1>
      <p className={styles.lead}>
        Nothing is sent to you now. When a planner sends a vehicle to the shop of{' '}
        {sayDepots(person?.depots ?? null, depotName)}, it appears here with a note on what to look at.
      </p>
    </div>
  );
}
