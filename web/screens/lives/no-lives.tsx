import { Button } from '#web/ui/button.tsx';
import parts from '#web/ui/parts.module.css';
import head from '#web/ui/screen-head.module.css';
import styles from './lives.module.css';

/** Nothing to compare: either the choice leaves nothing, or no life is registered. */
export function NoLives({ isNarrowed, onShowAll }: { isNarrowed: boolean; onShowAll: () => void }) {
  if (isNarrowed)
    return (
      <div className={parts.told}>
        <p className={head.lead}>No converter is left by this choice.</p>
        <p>
          <Button onClick={onShowAll}>Show all</Button>
        </p>
      </div>
    );
  return (
    <div className={parts.told}>
      <p className={head.lead}>No converter life can be used yet.</p>
      <p>
        A life is one converter in one vehicle, from fitting to removal. It needs the mileage at which the
        converter was fitted, and readings of the vehicle.
      </p>
      <ul className={styles.lines}>
        <li>
          Past and present fittings are registered with POST /api/lives: vehicle, mileage at fitting, mileage
          at removal, how it ended and what failed.
        </li>
        <li>A packet that is closed with the converter changed ends one life and begins the next.</li>
      </ul>
    </div>
  );
}
