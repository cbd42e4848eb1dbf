import { useState } from 'react';
import type { BayPlan } from '#server/contract/bookings.ts';
import type { PlanLeftOut } from '#server/contract/plan.ts';
import { formatDay } from '#web/format/format-day.ts';
import { formatMoney } from '#web/format/format-money.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { Button } from '#web/ui/button.tsx';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import styles from './proposal.module.css';

const mostShown = 12;

interface Props {
  rows: readonly PlanLeftOut[];
  plan: BayPlan;
  /** last day for which risk is counted */
  to: string;
  onBook: (vehicle: string) => void;
}

/** Who gets no day, why, and what that risks. */
export function LeftOut({ rows, plan, to, onBook }: Props) {
  const [isAll, setAll] = useState(false);
  if (rows.length === 0) return <p className={styles.soft}>Nobody who asks for a day is left out.</p>;
  const names = new Map(plan.depots.map(({ id, name }) => [id, name]));
  const risk = rows.reduce((sum, row) => sum + row.risk, 0);
  return (
    <section className={styles.leftOut}>
      <h3>
        Left out{' '}
        <span className={styles.unit}>
          {rows.length}, at a risk of {formatMoney(risk)}
        </span>
      </h3>
      <table>
        <thead>
          <tr>
            <th scope="col">Vehicle</th>
            <th scope="col" className={styles.figure}>
              Chance by {formatDay(to).slice(4)}
            </th>
            <th scope="col" className={styles.figure}>
              Risk
            </th>
          </tr>
        </thead>
        <tbody>
          {(isAll ? rows : rows.slice(0, mostShown)).map((row) => (
            <tr key={row.vehicle}>
              <th scope="row">
                <span className={styles.who}>
                  <GradeMark grade={row.grade} withWord={false} />
                  <button
                    type="button"
                    className={styles.unitLink}
                    title={`Book ${row.vehicle} by hand`}
                    onClick={() => onBook(row.vehicle)}
                  >
                    {row.vehicle}
                  </button>
                  <small>{names.get(row.depot ?? '') ?? row.depot ?? 'no depot'}</small>
                </span>
                <span className={styles.words}>{row.words}</span>
              </th>
              <td className={styles.figure}>{formatPercent(row.chance_by_end)}</td>
              <td className={styles.figure}>{formatMoney(row.risk)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {rows.length > mostShown && !isAll && (
        <Button kind="quiet" onClick={() => setAll(true)}>
          Show all {rows.length}
        </Button>
      )}
    </section>
  );
}
