import { memo } from 'react';
import { formatAge, formatDays } from '#web/format/format-days.ts';
import { toReaderDistance } from '#web/format/format-km.ts';
import { formatWhole, noFigure } from '#web/format/format-number.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { formatDrift } from '#web/format/format-rpm.ts';
import { keepUnits } from '#web/format/keep-units.ts';
import { DistanceRail } from '#web/ui/distance-rail.tsx';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { Spark } from '#web/ui/spark.tsx';
import { TickBox } from '#web/ui/tick-box.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import { BookingCell } from './booking-cell.tsx';
import { firstReason } from './first-reason.ts';
import styles from './list-table.module.css';
import { RowDetails } from './row-details.tsx';
import { findChange, noChange } from './say-change.ts';
import type { RowProps } from './shown-rows.ts';
import type { Columns } from './use-columns.ts';
import { GradeBefore, PlacesMoved } from './week-change.tsx';

export const TableRow = memo(function TableRow(props: RowProps & { columns: Columns }) {
  const { row, index, columns, names, isOpen, onToggle, onChoose } = props;
  const units = useUnits();
  const detailsId = `details-${index}`;
  const { places, was } = props.showsChange ? findChange(row) : noChange;
  return (
    <tbody
      ref={props.measure}
      data-index={index}
      data-vehicle={row.vehicle}
      className={styles.body}
      data-open={isOpen}
      data-chosen={props.isChosen}
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
        {columns.choose && (
          <td className={styles.choose}>
            <TickBox
              label={`Choose ${row.vehicle}`}
              checked={props.isChosen}
              disabled={!props.canChoose}
              onChange={(withShift) => onChoose?.(index, withShift)}
            />
          </td>
        )}
        <td className={styles.rank}>
          {formatWhole(row.rank)}
          <PlacesMoved places={places} className={styles.second} />
        </td>
        <td className={styles.grade}>
          <GradeMark grade={row.grade} />
          <GradeBefore was={was} className={styles.second} />
        </td>
        <th className={styles.vehicle} scope="row">
          <button
            type="button"
            className={styles.open}
            data-row-button=""
            aria-expanded={isOpen}
            aria-controls={isOpen ? detailsId : undefined}
            onClick={() => onToggle(row.vehicle)}
          >
            {row.vehicle}
          </button>
        </th>
        {columns.depot && (
          <td className={styles.depot}>{row.depot === null ? 'no depot' : names.depot(row.depot)}</td>
        )}
        {columns.platform && (
          <td className={styles.platform}>
            {row.platform === null ? 'no platform' : names.platform(row.platform)}
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
            <Spark points={row.spark} limitRpm={row.limit_rpm} width={columns.odometer ? 96 : 76} />
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
          {row.drift_rpm_per_1000km !== null && (
            <span className={styles.second}>{formatDrift(row.drift_rpm_per_1000km.estimate, units)}</span>
          )}
        </td>
        <td className={styles.chance}>
          {formatPercent(row.chance_within_horizon)}
          {row.days_to_limit.p50 !== null && (
            <span className={styles.second}>{formatDays(row.days_to_limit.p50)}</span>
          )}
        </td>
        <td className={styles.booking}>
          <BookingCell row={row} names={names} />
        </td>
        {columns.odometer && (
          <td className={styles.odometer}>
            {row.odometer_km === null ? noFigure : formatWhole(toReaderDistance(row.odometer_km, units))}
          </td>
        )}
        {columns.lastReading && (
          <td className={styles.lastReading}>{formatAge(row.last_reading_at, new Date())}</td>
        )}
        <td className={styles.reason}>{keepUnits(firstReason(row))}</td>
      </tr>
      {isOpen && (
        <tr className={styles.details} id={detailsId}>
          <td colSpan={columns.count}>
            <RowDetails {...props} />
          </td>
        </tr>
      )}
    </tbody>
  );
});
