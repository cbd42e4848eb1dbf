import { Link } from '@tanstack/react-router';
import styles from './vehicle-screen.module.css';

export function NoVehicle({ vehicle }: { vehicle: string }) {
  return (
    <div className={styles.page}>
      <h1 className={styles.name}>{vehicle}</h1>
      <p className={styles.lead}>
        No vehicle has this unit number. A vehicle appears here with its first reading, or when somebody
        registers it. <Link to="/">Go to the inspection list</Link>
      </p>
    </div>
  );
}
