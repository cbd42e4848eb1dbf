import { driftUnit } from '#web/format/format-rpm.ts';
import { RailScale } from '#web/ui/rail-scale.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './list-table.module.css';
import { rowProps } from './row-props.ts';
import type { ShownRows } from './shown-rows.ts';
import { TableRow } from './table-row.tsx';

/** One line a vehicle. Each row is a row group of its own, so that it can open in place. */
export function ListTable(shown: ShownRows) {
  const units = useUnits();
  return (
    <table className={styles.table} aria-rowcount={shown.total + 1}>
      <caption className="only-spoken">Vehicles in the order in which inspecting them avoids most</caption>
      <thead>
        <tr aria-rowindex={1}>
          <th className={styles.choose} scope="col">
            <span className="only-spoken">Compare</span>
          </th>
          <th className={styles.rank} scope="col">
            <span className="only-spoken">Rank</span>
          </th>
          <th className={styles.grade} scope="col">
            Grade
          </th>
          <th className={styles.vehicle} scope="col">
            Vehicle
          </th>
          <th className={styles.place} scope="col">
            Depot, platform
          </th>
          <th className={styles.rail} scope="col">
            <span className="only-spoken">Distance to limit: </span>
            <RailScale horizonKm={shown.horizonKm} scaleKm={shown.scaleKm} />
          </th>
          <th className={styles.spark} scope="col">
            Last {units.distance === 'mi' ? '6,200 mi' : '10,000 km'}
          </th>
          <th className={styles.slip} scope="col">
            Slip, of limit
          </th>
          <th className={styles.drift} scope="col">
            Drift<span className="only-spoken">, {driftUnit(units)}</span>
          </th>
          <th className={styles.chance} scope="col">
            Chance
          </th>
          <th className={styles.days} scope="col">
            To limit
          </th>
          <th className={styles.odometer} scope="col">
            Odometer
          </th>
          <th className={styles.reason} scope="col">
            First reason
          </th>
        </tr>
      </thead>
      <Space height={shown.spaceBefore} />
      {shown.items.map((item) => {
        const row = shown.rows[item.index];
        return row === undefined ? null : <TableRow key={item.key} {...rowProps(shown, row, item.index)} />;
      })}
      <Space height={shown.spaceAfter} />
    </table>
  );
}

/** Stands for the rows out of sight. */
function Space({ height }: { height: number }) {
  if (height <= 0) return null;
  return (
    <tbody aria-hidden="true">
      <tr>
        <td colSpan={13} className={styles.space} style={{ height }} />
      </tr>
    </tbody>
  );
}
