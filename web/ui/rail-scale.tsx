import { formatKm } from '#web/format/format-km.ts';
import styles from './rail-scale.module.css';
import { useUnits } from './use-units.ts';

/** Names the ends of the scale that the rails below share. */
export function RailScale({ horizonKm, scaleKm }: { horizonKm: number; scaleKm: number }) {
  const units = useUnits();
  return (
    <span className={styles.scale}>
      <span>limit</span>
      <span className={styles.horizon} style={{ left: `${(horizonKm / scaleKm) * 100}%` }}>
        horizon {formatKm(horizonKm, units)}
      </span>
      <span>{formatKm(scaleKm, units)}</span>
    </span>
  );
}
