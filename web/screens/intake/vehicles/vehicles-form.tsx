import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { ToComplete } from '#server/contract/intake.ts';
import { useDepots, usePlatforms } from '#web/api/use-fleet.ts';
import { useCompleteVehicles } from '#web/api/use-intake.ts';
import { formatDate } from '#web/format/format-date.ts';
import { formatOdometer } from '#web/format/format-km.ts';
import { formatWhole } from '#web/format/format-number.ts';
import styles from '#web/screens/intake/intake.module.css';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import { TickBox } from '#web/ui/tick-box.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import { lackWords } from './lack-words.ts';

type Row = ToComplete['rows'][number];
const columns = ['what is missing', 'depot', 'platform', 'VIN', 'last reading', 'odometer'];

/** One or several vehicles get a depot, a platform, or both; what is left as it is stays as it is. */
export function VehiclesForm({ rows }: { rows: readonly Row[] }) {
  const [ticked, setTicked] = useState<ReadonlySet<string>>(new Set());
  const [depot, setDepot] = useState('');
  const [platform, setPlatform] = useState('');
  const depots = useDepots().data ?? [];
  const platforms = usePlatforms().data ?? [];
  const complete = useCompleteVehicles();
  const chosen = rows.filter(({ vehicle }) => ticked.has(vehicle));
  const toggle = (vehicle: string) =>
    setTicked((before) => {
      const after = new Set(before);
      if (!after.delete(vehicle)) after.add(vehicle);
      return after;
    });
  const save = () =>
    complete.mutate(
      chosen.map(({ vehicle }) => ({
        id: vehicle,
        ...(depot === '' ? {} : { depot }),
        ...(platform === '' ? {} : { platform }),
      })),
      { onSuccess: () => setTicked(new Set()) },
    );
  const isAll = chosen.length === rows.length;
  return (
    <form
      className={settingsStyles.stack}
      onSubmit={(event) => {
        event.preventDefault();
        save();
      }}
    >
      <div className={settingsStyles.tools}>
        <TickBox
          label={isAll ? 'Leave all of this page' : 'Take all of this page'}
          checked={isAll ? true : chosen.length > 0 ? 'some' : false}
          onChange={() => setTicked(new Set(isAll ? [] : rows.map(({ vehicle }) => vehicle)))}
        />
        <SelectField
          label="Depot"
          value={depot}
          options={[
            { value: '', label: 'as it is' },
            ...depots.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          onChange={setDepot}
        />
        <SelectField
          label="Platform"
          value={platform}
          options={[
            { value: '', label: 'as it is' },
            ...platforms.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          onChange={setPlatform}
        />
        <Button kind="main" type="submit" disabled={chosen.length === 0 || complete.isPending}>
          {chosen.length === 0 ? 'Save' : `Save ${formatWhole(chosen.length)}`}
        </Button>
        <p className={settingsStyles.small} role="status">
          {complete.isSuccess && chosen.length === 0
            ? `Saved. ${formatWhole(complete.data.changed)} changed.`
            : chosen.length === 0
              ? 'Tick the vehicles that belong together.'
              : ''}
        </p>
      </div>
      {complete.isError && <ProblemNote error={complete.error} />}
      <table className={settingsStyles.table}>
        <thead>
          <tr>
            <th scope="col">vehicle</th>
            {columns.map((name) => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <VehicleRow
              key={row.vehicle}
              row={row}
              isTicked={ticked.has(row.vehicle)}
              nameOf={(id, among) =>
                (among === 'depot' ? depots : platforms).find((one) => one.id === id)?.name ?? id
              }
              onToggle={() => toggle(row.vehicle)}
            />
          ))}
        </tbody>
      </table>
    </form>
  );
}

interface RowProps {
  row: Row;
  isTicked: boolean;
  nameOf: (id: string, among: 'depot' | 'platform') => string;
  onToggle: () => void;
}

function VehicleRow({ row, isTicked, nameOf, onToggle }: RowProps) {
  const units = useUnits();
  const { vehicle, lacks, depot, platform, vin, vin_warning: warning } = row;
  return (
    <tr>
      <td>
        <span className={styles.ticked}>
          <TickBox label={`Take ${vehicle}`} checked={isTicked} onChange={onToggle} />
          <Link to="/vehicles/$vehicle" params={{ vehicle }}>
            {vehicle}
          </Link>
        </span>
      </td>
      <td data-name="what is missing">
        <span>{lacks.map((lack) => lackWords[lack]).join(', ')}</span>
      </td>
      <td data-name="depot">
        <span>{depot === null ? 'none' : nameOf(depot, 'depot')}</span>
      </td>
      <td data-name="platform">
        <span>{platform === null ? 'none' : nameOf(platform, 'platform')}</span>
      </td>
      <td data-name="VIN">
        <span>
          {vin === null || vin === '' ? 'not known' : vin}
          {warning !== null && <small>{warning}</small>}
        </span>
      </td>
      <td data-name="last reading">
        <span>{row.last_reading_at === null ? 'none yet' : formatDate(row.last_reading_at)}</span>
      </td>
      <td data-name="odometer">
        <span>{formatOdometer(row.odometer_km, units)}</span>
      </td>
    </tr>
  );
}
