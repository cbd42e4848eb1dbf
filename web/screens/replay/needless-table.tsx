import { Link } from '@tanstack/react-router';
import type { ReplayResult } from '#server/contract/replay.ts';
import { formatUtcDate } from '#web/format/format-date.ts';
import { formatKm, formatOdometer } from '#web/format/format-km.ts';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { ScrollArea } from '#web/ui/scroll-area.tsx';
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
      <ScrollArea label="Asked for early, or needlessly">
        <table className={styles.table}>
          <thead>
            <tr>
              {['vehicle', 'grade', 'from', 'to', 'at', 'driven since', 'why'].map((name) => (
                <th
                  key={name}
                  scope="col"
                  className={['grade', 'why'].includes(name) ? styles.text : undefined}
                >
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {shown.map((one) => (
              <tr key={`${one.vehicle} ${one.from}`}>
                <th scope="row">
                  <Link to="/vehicles/$vehicle" params={{ vehicle: one.vehicle }}>
                    {one.vehicle}
                  </Link>
                </th>
                <td data-label="grade" className={styles.text}>
                  <GradeMark grade={one.grade} />
                </td>
                <td data-label="from">{formatUtcDate(one.from)}</td>
                <td data-label="to">{one.to === null ? 'the end' : formatUtcDate(one.to)}</td>
                <td data-label="at">{formatOdometer(one.odometer_km, units)}</td>
                <td data-label="driven since">{formatKm(one.driven_km, units)}</td>
                <td data-label="why" className={styles.text}>
                  {whyWords[one.why]}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollArea>
      {more}
    </>
  );
}
