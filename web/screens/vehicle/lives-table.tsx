import type { Life } from '#server/contract/vehicle.ts';
import { formatDate } from '#web/format/format-date.ts';
import { formatOdometer } from '#web/format/format-km.ts';
import type { Units } from '#web/format/units.ts';
import type { PlainTable } from '#web/format/write-csv.ts';
import { TableCsv } from '#web/ui/table-csv.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './lives-table.module.css';
import type { VehicleState } from './use-vehicle-state.ts';

interface Props {
  lives: readonly Life[];
  odometerKm: number | null;
  state: VehicleState;
}

const sources = { original: 'original', new: 'new', rebuilt: 'rebuilt', used: 'used' } as const;

/** The converters of this vehicle, from fitting to removal. */
export function LivesTable({ lives, odometerKm, state }: Props) {
  const units = useUnits();
  return (
    <section className={styles.section}>
      <h2>Converter lives</h2>
      {lives.length > 0 && (
        <TableCsv name="converter lives" table={() => listLives(lives, odometerKm, units)} />
      )}
      {lives.length === 0 ? (
        <p>No converter is registered: the first life begins with the first reading.</p>
      ) : (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a table wider than a phone must scroll by key
        <section className={styles.scroll} tabIndex={0} aria-label="Converter lives">
          <table className={styles.table}>
            <thead>
              <tr>
                <th scope="col">life</th>
                <th scope="col">unit</th>
                <th scope="col">fitted at</th>
                <th scope="col">fitted on</th>
                <th scope="col">removed at</th>
                <th scope="col">removed on</th>
                <th scope="col">ran</th>
                <th scope="col">ended</th>
                <th scope="col">supplier</th>
              </tr>
            </thead>
            <tbody>
              {lives.map((life) => (
                <tr key={life.life} data-chosen={state.search.life === life.life}>
                  <td>{life.life}</td>
                  <td>{sayUnit(life, units)}</td>
                  <td>{formatOdometer(life.fitted_km, units)}</td>
                  <td>{formatDate(life.fitted_at)}</td>
                  <td>{formatOdometer(life.removed_km, units)}</td>
                  <td>{formatDate(life.removed_at)}</td>
                  <td>{sayRan(life, odometerKm, units)}</td>
                  <td>{sayEnd(life)}</td>
                  <td>{life.supplier ?? '–'}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      )}
    </section>
  );
}

const sayUnit = ({ source, run_km }: Life, units: Units): string =>
  source === null
    ? 'not registered'
    : `${sources[source]}${run_km ? `, had run ${formatOdometer(run_km, units)}` : ''}`;

const sayEnd = ({ ended, mode }: Life): string =>
  ended === null ? 'still in the vehicle' : [ended, mode].filter((word) => word).join(', ');

function listLives(lives: readonly Life[], odometerKm: number | null, units: Units): PlainTable {
  const figure = (title: string) => ({ title: `${title}, ${units.distance}`, kind: 'figure' as const });
  const word = (title: string) => ({ title, kind: 'word' as const });
  const plain = (text: string): string => text.replace(` ${units.distance}`, '');
  return {
    caption: 'Converter lives',
    columns: [
      ...[word('life'), word('unit'), figure('fitted at'), word('fitted on'), figure('removed at')],
      ...[word('removed on'), figure('ran'), word('ended'), word('supplier'), figure('had run before')],
    ],
    rows: lives.map((life) => [
      String(life.life),
      life.source ?? '–',
      plain(formatOdometer(life.fitted_km, units)),
      life.fitted_at?.slice(0, 10) ?? '–',
      plain(formatOdometer(life.removed_km, units)),
      life.removed_at?.slice(0, 10) ?? '–',
      plain(sayRan(life, odometerKm, units)),
      sayEnd(life),
      life.supplier ?? '–',
      plain(formatOdometer(life.run_km, units)),
    ]),
  };
}

function sayRan(life: Life, odometerKm: number | null, units: Units): string {
  const endKm = life.removed_km ?? odometerKm;
  // Fitted at a mileage that no reading has reached yet.
  return endKm === null ? '–' : formatOdometer(Math.max(0, endKm - life.fitted_km), units);
}
