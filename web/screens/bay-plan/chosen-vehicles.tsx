import { Link } from '@tanstack/react-router';
import { formatWhole } from '#web/format/format-number.ts';
import styles from './beside.module.css';

const mostNamed = 8;

/** For which vehicles of the list a proposal is asked; null where this window does not know the choice. */
export function ChosenVehicles({ vehicles }: { vehicles: readonly string[] | null }) {
  if (vehicles === null)
    return (
      <p role="alert">
        This address names vehicles that were chosen in another window, which alone knows them. Choose them
        again in the <Link to="/">inspection list</Link>; nothing was lost.
      </p>
    );
  const rest = vehicles.length - mostNamed;
  const names = `${vehicles.slice(0, mostNamed).join(', ')}${rest > 0 ? ` and ${formatWhole(rest)} more` : ''}`;
  return (
    <p>
      For the {vehicles.length === 1 ? 'vehicle' : `${formatWhole(vehicles.length)} vehicles`} chosen in the
      list: <span className={styles.soft}>{names}</span>
    </p>
  );
}
