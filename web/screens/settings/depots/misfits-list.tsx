import { Link } from '@tanstack/react-router';
import type { DepotPreview } from '#server/contract/settings.ts';
import styles from './depots.module.css';

const mostNamed = 12;

export function MisfitsList({ misfits }: Pick<DepotPreview, 'misfits'>) {
  const rest = misfits.length - mostNamed;
  return (
    <ul className={styles.list}>
      {misfits.slice(0, mostNamed).map(({ booking, vehicle, why }) => (
        <li key={booking}>
          <Link to="/vehicles/$vehicle" params={{ vehicle }}>
            {vehicle}
          </Link>{' '}
          {why}
        </li>
      ))}
      {rest > 0 && <li>and {rest} more</li>}
    </ul>
  );
}
