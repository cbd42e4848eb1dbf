import { Link } from '@tanstack/react-router';
import type { ReplayFailure, ReplayResult } from '#server/contract/replay.ts';
import { useFleetNames } from '#web/api/use-fleet-names.ts';
import { formatUtcDate } from '#web/format/format-date.ts';
import { formatKm, formatOdometer } from '#web/format/format-km.ts';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './replay.module.css';
import { cameWords, ruleWords } from './replay-words.ts';
import { TableScroll } from './table-scroll.tsx';

/** What was missed first, then in order of time. */
export const orderCame = (came: readonly ReplayFailure[]): ReplayFailure[] =>
  came.toSorted(
    (a, b) =>
      Number(a.list !== null) - Number(b.list !== null) ||
      a.day.localeCompare(b.day) ||
      a.vehicle.localeCompare(b.vehicle),
  );

export function CameTable({ result: { came } }: { result: ReplayResult }) {
  const units = useUnits();
  const names = useFleetNames();
  return (
    <TableScroll label="What came">
      <table className={styles.table}>
        <thead>
          <tr>
            {[
              'vehicle',
              'what',
              'on',
              'at',
              'seen before',
              'the list',
              ruleWords.slip_level,
              ruleWords.weekly_rise,
            ].map((name) => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {orderCame(came).map((one) => (
            <tr key={`${one.vehicle} ${one.day} ${one.what}`}>
              <th scope="row">
                <Link to="/vehicles/$vehicle" params={{ vehicle: one.vehicle }}>
                  {one.vehicle}
                </Link>
                <span className={styles.under}>
                  {[
                    one.platform === null ? null : names.platform(one.platform),
                    one.depot === null ? null : names.depot(one.depot),
                  ]
                    .filter((part) => part !== null)
                    .join(', ')}
                </span>
              </th>
              <td data-label="what" className={styles.text}>
                {cameWords[one.what]}
                {one.mode !== null && <span className={styles.under}>{one.mode.replaceAll('_', ' ')}</span>}
              </td>
              <td data-label="on">{formatUtcDate(one.day)}</td>
              <td data-label="at">{formatOdometer(one.odometer_km, units)}</td>
              <td data-label="seen before">{formatKm(one.first_seen_km, units)}</td>
              <td data-label="the list" className={styles.text}>
                {one.list === null ? (
                  <strong>missed</strong>
                ) : (
                  <>
                    <GradeMark grade={one.list.grade} /> {formatKm(one.list.notice_km, units)} before
                    <span className={styles.under}>from {formatUtcDate(one.list.day)}</span>
                  </>
                )}
              </td>
              {(['slip_level', 'weekly_rise'] as const).map((rule) => (
                <td key={rule} data-label={ruleWords[rule]}>
                  {one[rule] === null ? 'missed' : `${formatKm(one[rule].notice_km, units)} before`}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </TableScroll>
  );
}
