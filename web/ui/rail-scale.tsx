import { formatKm, formatKmNumber } from '#web/format/format-km.ts';
import styles from './rail-scale.module.css';
import { useUnits } from './use-units.ts';

/** Names the ends of the scale that the rails below share. */
export function RailScale({ horizonKm, scaleKm }: { horizonKm: number; scaleKm: number }) {
  const units = useUnits();
  return (
    <span className={styles.scale}>
      <span>0</span>
      <span className={styles.horizon} style={{ left: `${(horizonKm / scaleKm) * 100}%` }}>
        horizon {formatKmNumber(horizonKm, units)}
      </span>
      <span>{formatKm(scaleKm, units)}</span>
    </span>
  );
}
