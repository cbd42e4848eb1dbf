import type { Depot } from '#server/contract/fleet.ts';
import { formatWholeDay } from '#web/format/format-day.ts';
import styles from './depot-calendar.module.css';
import { listWeeks } from './list-months.ts';
import { sayDayOf } from './say-day.ts';
import { tellDay } from './tell-day.ts';

const monthName = new Intl.DateTimeFormat('en-GB', { month: 'long', year: 'numeric', timeZone: 'UTC' });
const weekdayNames = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];

interface Props {
  depot: Depot;
  /** as 2026-03 */
  month: string;
  today: string;
}

export const MonthTable = ({ depot, month, today }: Props) => (
  <table className={styles.month}>
    <caption>{monthName.format(new Date(`${month}-01T00:00:00Z`))}</caption>
    <thead>
      <tr>
        {weekdayNames.map((name) => (
          <th key={name} scope="col" abbr={name}>
            {name.charAt(0)}
          </th>
        ))}
      </tr>
    </thead>
    <tbody>
      {listWeeks(month).map((week) => (
        <tr key={week.find((day) => day !== null)}>
          {week.map((day, i) =>
            day === null ? (
              // biome-ignore lint/suspicious/noArrayIndexKey: an empty place has nothing but its weekday
              <td key={i} />
            ) : (
              <td key={day}>
                <Day depot={depot} day={day} today={today} />
              </td>
            ),
          )}
        </tr>
      ))}
    </tbody>
  </table>
);

function Day({ depot, day, today }: { depot: Depot; day: string; today: string }) {
  const told = tellDay(depot, day);
  const words = sayDayOf(told);
  return (
    <span
      className={styles.day}
      data-kind={told.kind}
      data-past={day < today}
      data-today={day === today}
      title={`${formatWholeDay(day)}: ${words}`}
    >
      <span aria-hidden="true">{Number(day.slice(8))}</span>
      <span className="only-spoken">
        {Number(day.slice(8))}, {words}
      </span>
    </span>
  );
}
