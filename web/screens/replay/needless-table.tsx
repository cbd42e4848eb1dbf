import { Link } from '@tanstack/react-router';
import type { ReplayResult } from '#server/contract/replay.ts';
import { formatUtcDate } from '#web/format/format-date.ts';
import { formatKm, formatOdometer } from '#web/format/format-km.ts';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { Cell, RowTable } from '#web/ui/row-table.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './replay.module.css';
import { whyWords } from './replay-words.ts';
import { useShortened } from './use-shortened.tsx';

/** What the list asked for and nothing came of within the horizon. */
export function NeedlessTable({ result: { needless } }: { result: ReplayResult }) {
  const units = useUnits();
  const { shown, more } = useShortened(needless);
  return (
    <>
      <RowTable label="Asked for early, or needlessly">
        <thead>
          <tr>
            {['vehicle', 'grade', 'from', 'to', 'at', 'driven since', 'why'].map((name) => (
              <th key={name} scope="col" data-words={['grade', 'why'].includes(name) || undefined}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {shown.map((one) => (
            <tr key={`${one.vehicle} ${one.from}`}>
              <th scope="row">
                <Link to="/vehicles/$vehicle" params={{ vehicle: one.vehicle }} className={styles.together}>
                  {one.vehicle}
                </Link>
              </th>
              <Cell label="grade" isWords>
                <GradeMark grade={one.grade} />
              </Cell>
              <Cell label="from">{formatUtcDate(one.from)}</Cell>
              <Cell label="to">{one.to === null ? 'the end' : formatUtcDate(one.to)}</Cell>
              <Cell label="at">{formatOdometer(one.odometer_km, units)}</Cell>
              <Cell label="driven since">{formatKm(one.driven_km, units)}</Cell>
              <Cell label="why" isWords>
                {whyWords[one.why]}
              </Cell>
            </tr>
          ))}
        </tbody>
      </RowTable>
      {more}
    </>
  );
}
