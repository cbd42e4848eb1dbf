import { memo } from 'react';
import { formatDays } from '#web/format/format-days.ts';
import { formatOdometer } from '#web/format/format-km.ts';
import { formatWhole, noFigure } from '#web/format/format-number.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { formatDrift } from '#web/format/format-rpm.ts';
import { putInUnits } from '#web/format/words-in-units.ts';
import { DistanceRail } from '#web/ui/distance-rail.tsx';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { Spark } from '#web/ui/spark.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './list-table.module.css';
import { RowDetails } from './row-details.tsx';
import type { RowProps } from './shown-rows.ts';

export const TableRow = memo(function TableRow(props: RowProps) {
  const { row, index, isOpen, isCompared, canCompare, onToggle, onCompare } = props;
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
          <label className={styles.tick}>
            <input
              type="checkbox"
              checked={isCompared}
              disabled={!canCompare}
              onChange={() => onCompare(row.vehicle)}
              aria-label={`Compare ${row.vehicle}`}
            />
          </label>
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
        <td className={styles.place}>
          <span>{row.depot ?? 'no depot'}</span>
          <span>{row.platform ?? 'no platform'}</span>
        </td>
        <td className={styles.rail}>
          <DistanceRail
            distance={row.km_to_limit}
            grade={row.grade}
            horizonKm={props.horizonKm}
            scaleKm={props.scaleKm}
            reason={row.missing[0] ?? null}
          />
        </td>
        <td className={styles.spark}>
          <Spark points={row.spark} limitRpm={row.limit_rpm} />
        </td>
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
        <td className={styles.odometer}>{formatOdometer(row.odometer_km, units)}</td>
        <td className={styles.reason}>
          <span>{firstReason(row.reasons, row.missing, (text) => putInUnits(text, units))}</span>
        </td>
      </tr>
      {isOpen && (
        <tr className={styles.details} id={detailsId}>
          <td colSpan={13}>
            <RowDetails row={row} horizonKm={props.horizonKm} scaleKm={props.scaleKm} />
          </td>
        </tr>
      )}
    </tbody>
  );
});

function firstReason(
  reasons: readonly string[],
  missing: readonly string[],
  inUnits: (text: string) => string,
): string {
  const [reason] = reasons;
  if (reason !== undefined) return inUnits(reason);
  const [gap] = missing;
  return gap === undefined ? '' : `Missing: ${inUnits(gap)}`;
}
