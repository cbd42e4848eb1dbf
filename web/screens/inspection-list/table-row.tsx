import { memo } from 'react';
import { formatAge, formatDays } from '#web/format/format-days.ts';
import { toReaderDistance } from '#web/format/format-km.ts';
import { formatWhole, noFigure } from '#web/format/format-number.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { formatDrift } from '#web/format/format-rpm.ts';
import { DistanceRail } from '#web/ui/distance-rail.tsx';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { Spark } from '#web/ui/spark.tsx';
import { TickBox } from '#web/ui/tick-box.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import { firstReason } from './first-reason.ts';
import styles from './list-table.module.css';
import { RowDetails } from './row-details.tsx';
import type { RowProps } from './shown-rows.ts';
import type { Columns } from './use-columns.ts';

export const TableRow = memo(function TableRow(props: RowProps & { columns: Columns }) {
  const { row, index, columns, isOpen, isCompared, canCompare, onToggle, onCompare } = props;
  const units = useUnits();
  const detailsId = `details-${index}`;
  return (
    <tbody
      ref={props.measure}
      data-index={index}
      data-vehicle={row.vehicle}
      className={styles.body}
      data-open={isOpen}
    >
      <tr
        className={styles.row}
        aria-rowindex={index + 2}
        // A mouse may hit the row anywhere; by key the button in it does the same.
        onClick={(event) => {
          if (event.target instanceof Element && event.target.closest('button, a, input, label') === null)
            onToggle(row.vehicle);
        }}
      >
        <td className={styles.choose}>
          <TickBox
            label={`Compare ${row.vehicle}`}
            checked={isCompared}
            disabled={!canCompare}
            onChange={() => onCompare(row.vehicle)}
          />
        </td>
        <td className={styles.rank}>{formatWhole(row.rank)}</td>
        <td className={styles.grade}>
          <GradeMark grade={row.grade} />
        </td>
        <th className={styles.vehicle} scope="row">
          <button
            type="button"
            className={styles.open}
            data-row-button=""
            aria-expanded={isOpen}
            aria-controls={isOpen ? detailsId : undefined}
            onClick={() => onToggle(row.vehicle)}
            title={row.vehicle}
          >
            {row.vehicle}
          </button>
        </th>
        {columns.place && (
          <td className={styles.place}>
            <PlaceName name={row.depot === null ? 'no depot' : props.names.depot(row.depot)} />
            <PlaceName name={row.platform === null ? 'no platform' : props.names.platform(row.platform)} />
          </td>
        )}
        <td className={styles.rail}>
          <DistanceRail
            distance={row.km_to_limit}
            grade={row.grade}
            horizonKm={props.horizonKm}
            scaleKm={props.scaleKm}
            reason={row.missing[0] ?? null}
            showsReason={false}
          />
        </td>
        {columns.spark && (
          <td className={styles.spark}>
            <Spark points={row.spark} limitRpm={row.limit_rpm} width={96} />
          </td>
        )}
        <td className={styles.slip}>
          {row.reference_slip_rpm === null ? (
            noFigure
          ) : (
            <>
              {formatWhole(row.reference_slip_rpm)}
              {row.limit_rpm !== null && <small> of {formatWhole(row.limit_rpm)}</small>}
            </>
          )}
        </td>
        <td className={styles.drift}>{formatDrift(row.drift_rpm_per_1000km?.estimate, units)}</td>
        <td className={styles.chance}>{formatPercent(row.chance_within_horizon)}</td>
        <td className={styles.days}>{formatDays(row.days_to_limit.p50)}</td>
        {columns.odometer && (
          <td className={styles.odometer}>
            {row.odometer_km === null ? noFigure : formatWhole(toReaderDistance(row.odometer_km, units))}
          </td>
        )}
        {columns.lastReading && (
          <td className={styles.lastReading}>{formatAge(row.last_reading_at, new Date())}</td>
        )}
        <td className={styles.reason}>
          <span>{firstReason(row)}</span>
        </td>
      </tr>
      {isOpen && (
        <tr className={styles.details} id={detailsId}>
          <td colSpan={columns.count}>
            <RowDetails row={row} horizonKm={props.horizonKm} scaleKm={props.scaleKm} />
          </td>
        </tr>
      )}
    </tbody>
  );
});

/** A name that may be longer than its column; the pointer shows all of it. */
const PlaceName = ({ name }: { name: string }) => <span title={name}>{name}</span>;
