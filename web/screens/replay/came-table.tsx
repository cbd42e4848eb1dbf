import { Link } from '@tanstack/react-router';
import type { ReplayFailure, ReplayResult } from '#server/contract/replay.ts';
import { useFleetNames } from '#web/api/use-fleet-names.ts';
import { formatUtcDate } from '#web/format/format-date.ts';
import { formatKm, formatOdometer } from '#web/format/format-km.ts';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { Cell, RowTable } from '#web/ui/row-table.tsx';
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
      <RowTable label="What came">
        <thead>
          <tr>
            {columns.map(({ name, isText }) => (
              <th key={name} scope="col" data-words={isText || undefined}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {shown.map((one) => (
            <tr key={`${one.vehicle} ${one.day} ${one.what}`}>
              <th scope="row">
                <div>
                  <Link to="/vehicles/$vehicle" params={{ vehicle: one.vehicle }} className={styles.together}>
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
                </div>
              </th>
              <Cell label="what" isWords>
                {cameWords[one.what]}
                {one.mode !== null && <span className={styles.under}>{one.mode.replaceAll('_', ' ')}</span>}
              </Cell>
              <Cell label="on">{formatUtcDate(one.day)}</Cell>
              <Cell label="at">{formatOdometer(one.odometer_km, units)}</Cell>
              <Cell label="seen before">{formatKm(one.first_seen_km, units)}</Cell>
              <Cell label="the list" isWords>
                {one.list === null ? (
                  <strong>missed</strong>
                ) : (
                  <>
                    <span className={styles.together}>
                      <GradeMark grade={one.list.grade} /> {formatKm(one.list.notice_km, units)} before
                    </span>
                    <span className={styles.under}>from {formatUtcDate(one.list.day)}</span>
                  </>
                )}
              </Cell>
              {(['slip_level', 'weekly_rise'] as const).map((rule) => (
                <Cell key={rule} label={ruleWords[rule]}>
                  {one[rule] === null ? 'missed' : formatKm(one[rule].notice_km, units)}
                </Cell>
              ))}
            </tr>
          ))}
        </tbody>
      </RowTable>
      {more}
    </>
  );
}
