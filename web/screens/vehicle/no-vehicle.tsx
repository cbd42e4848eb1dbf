import { Link } from '@tanstack/react-router';
import { usePerson } from '#web/api/use-session.ts';
import styles from './vehicle-screen.module.css';

export function NoVehicle({ vehicle }: { vehicle: string }) {
  const isShop = usePerson()?.role === 'shop';
  return (
    <div className={styles.page}>
      <h1 className={styles.name}>{vehicle}</h1>
      <p className={styles.lead}>
        {isShop
          ? 'No vehicle with this unit number is sent to you; it may have been called back. '
          : 'No vehicle has this unit number. A vehicle appears here with its first reading, or when somebody registers it. '}
        <Link to="/">{isShop ? 'Go to what was sent to you' : 'Go to the inspection list'}</Link>
      </p>
    </div>
  );
}
