import { driftPer } from '#web/format/format-rpm.ts';
import { RailScale } from '#web/ui/rail-scale.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './list-table.module.css';
import { sparkSpan } from './spark-span.ts';
import type { Columns } from './use-columns.ts';

interface Props {
  columns: Columns;
  horizonKm: number;
  scaleKm: number;
}

export function TableHead({ columns, horizonKm, scaleKm }: Props) {
  const units = useUnits();
  return (
    <thead>
      <tr aria-rowindex={1}>
        <Head of="choose" spoken="Compare" />
        <Head of="rank" spoken="Rank" />
        <Head of="grade" name="Grade" />
        <Head of="vehicle" name="Vehicle" />
        {columns.place && <Head of="place" name="Depot" unit="platform" />}
        <th className={styles.rail} scope="col">
          Distance to limit
          <RailScale horizonKm={horizonKm} scaleKm={scaleKm} />
        </th>
        {columns.spark && <Head of="spark" name="Slip" unit={`last ${sparkSpan(units)}`} />}
        <Head of="slip" name="Slip" unit="of limit, rpm" />
        <Head of="drift" name="Drift" unit={driftPer(units)} />
        <Head of="chance" name="Chance" unit="in horizon" />
        <Head of="days" name="To limit" unit="median" />
        {columns.odometer && <Head of="odometer" name="Odometer" unit={units.distance} />}
        {columns.lastReading && <Head of="lastReading" name="Last" unit="reading" />}
        <Head of="reason" name="First reason" />
      </tr>
    </thead>
  );
}

function Head({ of, name, unit, spoken }: { of: string; name?: string; unit?: string; spoken?: string }) {
  return (
    <th className={styles[of]} scope="col">
      {name}
      {spoken !== undefined && <span className="only-spoken">{spoken}</span>}
      {unit !== undefined && <span className={styles.unit}> {unit}</span>}
    </th>
  );
}
