import type { PlatformMovement } from '#server/contract/movement.ts';
import { formatTenths, formatWhole } from '#web/format/format-number.ts';
import { formatTemperature, temperatureUnit } from '#web/format/format-temperature.ts';
import { TableCsv } from '#web/ui/table-csv.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './platform-screen.module.css';

type Effects = NonNullable<PlatformMovement['effects']>;

/** 10 degC are 18 degF. */
const fahrenheitPerCelsius = 1.8;

const signed = (rpm: number | null): string => {
  if (rpm === null) return 'not in the feeds';
  const text = formatTenths(rpm);
  return rpm > 0 && /[1-9]/.test(text) ? `+${text}` : text;
};

/** What load, temperature and command do to the slip of these vehicles, as learned. */
export function EffectsTable({ movement, effects }: { movement: PlatformMovement; effects: Effects }) {
  const units = useUnits();
  const { healthy, worn } = effects;
  const perTenDegrees = units.temperature === 'F' ? 10 / fahrenheitPerCelsius : 10;
  const times = (factor: number, effect: number | null) => (effect === null ? null : factor * effect);
  const rows: [string, number | null, number | null][] = [
    ['load, 10 % more', times(10, healthy.load_rpm_per_pct), times(10, worn.load_rpm_per_pct)],
    [
      `fluid, 10 ${temperatureUnit(units)} hotter`,
      times(perTenDegrees, healthy.fluid_rpm_per_c),
      times(perTenDegrees, worn.fluid_rpm_per_c),
    ],
    ['command, 10 % more', 10 * healthy.duty_rpm_per_pct, 10 * worn.duty_rpm_per_pct],
  ];
  const { duty_pct, load_pct, fluid_c } = movement.reference;
  return (
    <section className={styles.part}>
      <h2>What conditions do to slip</h2>
      <TableCsv
        name="conditions and slip"
        table={() => ({
          caption: 'What conditions do to slip',
          columns: [
            { title: 'change', kind: 'word' },
            { title: 'healthy, rpm', kind: 'figure' },
            { title: 'risen by 100 rpm, rpm', kind: 'figure' },
          ],
          rows: rows.map(([name, ...effect]) => [name, ...effect.map(signed)]),
        })}
      />
      <p className={styles.soft}>
        Learned from differences within each stretch. With them slip is brought to {formatWhole(duty_pct)} %
        command, {formatWhole(load_pct)} % load and {formatTemperature(fluid_c, units)}.
      </p>
      <table className={styles.table}>
        <thead>
          <tr>
            <th scope="col">change</th>
            <th scope="col">healthy, rpm</th>
            <th scope="col">risen by 100 rpm, rpm</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(([name, ofHealthy, ofWorn]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{signed(ofHealthy)}</td>
              <td>{signed(ofWorn)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
