import { useState } from 'react';
import type { Depot } from '#server/contract/fleet.ts';
import { todayAt } from '#web/format/zones.ts';
import { Button } from '#web/ui/button.tsx';
import styles from './depot-calendar.module.css';
import { kindWords } from './kind-words.ts';
import { listMonths } from './list-months.ts';
import { MonthTable } from './month-table.tsx';

const fewMonths = 4;
const manyMonths = 12;

/** The next months of a depot: what is open, short or closed is told by shape as well as by tone. */
export function DepotCalendar({ depot }: { depot: Depot }) {
  const [showsYear, setShowsYear] = useState(false);
  const today = todayAt(depot.time_zone, new Date());
  return (
    <div className={styles.calendar}>
      <ul className={styles.key} aria-hidden="true">
        {kindWords.map(({ kind, words }) => (
          <li key={kind}>
            <span className={styles.day} data-kind={kind}>
              1
            </span>
            {words}
          </li>
        ))}
      </ul>
      <div className={styles.months}>
        {listMonths(today, showsYear ? manyMonths : fewMonths).map((month) => (
          <MonthTable key={month} depot={depot} month={month} today={today} />
        ))}
      </div>
      <p>
        <Button kind="quiet" aria-expanded={showsYear} onClick={() => setShowsYear(!showsYear)}>
          {showsYear ? `Show ${fewMonths} months` : `Show ${manyMonths} months`}
        </Button>
      </p>
    </div>
  );
}
