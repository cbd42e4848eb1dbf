import type { PlanDepot } from '#server/contract/plan.ts';
import { formatDay, formatHourNumber } from '#web/format/format-day.ts';
import { formatMoney } from '#web/format/format-money.ts';
import styles from './proposal.module.css';
import { sayGap } from './proposal-figures.tsx';

/** What one more bay on one day would be worth, depot by depot, the dearest first. */
export function ExtraBayDays({ depots }: { depots: readonly PlanDepot[] }) {
  if (depots.length === 0) return null;
  const sorted = depots.toSorted((a, b) => (b.extra_bay_day?.worth ?? -1) - (a.extra_bay_day?.worth ?? -1));
  return (
    <section className={styles.leftOut}>
      <h3>One more bay day</h3>
      <table>
        <thead>
          <tr>
            <th scope="col">Depot</th>
            <th scope="col" className={styles.figure}>
              Hours taken
            </th>
            <th scope="col" className={styles.figure}>
              Worth
            </th>
          </tr>
        </thead>
        <tbody>
          {sorted.map((depot) => (
            <tr key={depot.depot}>
              <th scope="row">
                {depot.name}
                <span className={styles.words}>{sayExtra(depot)}</span>
              </th>
              <td className={styles.figure}>
                {formatHourNumber(Math.round(depot.booked_hours + depot.proposed_hours))}/
                {formatHourNumber(Math.round(depot.bay_hours))}
              </td>
              <td className={styles.figure}>{formatMoney(depot.extra_bay_day?.worth ?? null)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function sayExtra({ extra_bay_day: extra, optimal, gap }: PlanDepot): string {
  const parts: string[] = [];
  if (extra === null) parts.push('not computed in time');
  else if (extra.day === null) parts.push('would change nothing');
  else {
    parts.push(`most on ${formatDay(extra.day)}`);
    if (extra.holds > 0)
      parts.push(extra.holds === 1 ? '1 more on hold gets a day' : `${extra.holds} more on hold get a day`);
  }
  if (!optimal) parts.push(sayGap(gap).toLowerCase());
  return parts.join(', ');
}
