import { Link } from '@tanstack/react-router';
import type { ReplayFailure, ReplayResult } from '#server/contract/replay.ts';
import { useFleetNames } from '#web/api/use-fleet-names.ts';
import { formatUtcDate } from '#web/format/format-date.ts';
import { formatKm, formatOdometer } from '#web/format/format-km.ts';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { ScrollArea } from '#web/ui/scroll-area.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './replay.module.css';
import { cameWords, ruleWords } from './replay-words.ts';
import { useShortened } from './use-shortened.tsx';

/** What was missed first, then in order of time. */
export const orderCame = (came: readonly ReplayFailure[]): ReplayFailure[] =>
  came.toSorted(
    (a, b) =>
      Number(a.list !== null) - Number(b.list !== null) ||
      a.day.localeCompare(b.day) ||
      a.vehicle.localeCompare(b.vehicle),
  );

const columns = [
  { name: 'vehicle', isText: true },
  { name: 'what', isText: true },
  { name: 'on', isText: false },
  { name: 'at', isText: false },
  { name: 'seen before', isText: false },
  { name: 'the list', isText: true },
  { name: ruleWords.slip_level, isText: false },
  { name: ruleWords.weekly_rise, isText: false },
];

export function CameTable({ result: { came } }: { result: ReplayResult }) {
  const units = useUnits();
  const names = useFleetNames();
  const { shown, more } = useShortened(orderCame(came));
  return (
    <>
      <ScrollArea label="What came">
        <table className={styles.table}>
          <thead>
            <tr>
              {columns.map(({ name, isText }) => (
                <th key={name} scope="col" className={isText ? styles.text : undefined}>
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {shown.map((one) => (
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
                    {one[rule] === null ? 'missed' : formatKm(one[rule].notice_km, units)}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollArea>
      {more}
    </>
  );
}
