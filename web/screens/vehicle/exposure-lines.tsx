import type { VehicleSeries } from '#server/contract/vehicle.ts';
import { sayHeat, sayHot } from '#web/charts/say-exposure.ts';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './condition-figures.module.css';

/** What wears a clutch, beside what is usual on the platform: heat where torque is known, and hot fluid. */
export function ExposureLines({ exposure }: { exposure: VehicleSeries['exposure'] }) {
  const units = useUnits();
  const lines = [sayHeat(exposure, units), sayHot(exposure, units)].filter((line) => line !== null);
  return lines.map(({ name, own, per, beside }) => (
    <p key={name}>
      {name} <strong>{own}</strong> {per}
      {beside !== null && <span className={styles.beside}>{beside}</span>}
    </p>
  ));
}
