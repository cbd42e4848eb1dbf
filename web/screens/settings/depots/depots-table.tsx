import { Fragment } from 'react';
import type { Depot } from '#server/contract/fleet.ts';
import { formatDay } from '#web/format/format-day.ts';
import { noFigure } from '#web/format/format-number.ts';
import { todayAt } from '#web/format/zones.ts';
import styles from '#web/screens/settings/settings.module.css';
import { DepotForm } from './depot-form.tsx';
import { countOpenHours, sayWeek } from './say-week.ts';

interface Props {
  depots: readonly Depot[];
  open: string | undefined;
  onToggle: (id: string) => void;
}

export const DepotsTable = ({ depots, open, onToggle }: Props) => (
  <table className={styles.table}>
    <caption className="only-spoken">Depots; a press on a name opens what can be changed</caption>
    <thead>
      <tr>
        <th scope="col">Name</th>
        <th scope="col">Bays</th>
        <th scope="col">Hours</th>
        <th scope="col">Bay hours a week</th>
        <th scope="col">Next special day</th>
        <th scope="col" className={styles.last}>
          Time zone
        </th>
      </tr>
    </thead>
    <tbody>
      {depots.map((depot) => (
        <Fragment key={depot.id}>
          <tr>
            <td>
              <button
                type="button"
                className={styles.opener}
                aria-expanded={open === depot.id}
                onClick={() => onToggle(depot.id)}
              >
                <span className={styles.openerName}>{depot.name}</span>
                <small>{depot.id}</small>
              </button>
            </td>
            <td data-name="Bays">{depot.bays}</td>
            <td data-name="Hours">{sayWeek(depot.week)}</td>
            <td data-name="Bay hours">{Math.round(depot.bays * countOpenHours(depot.week) * 100) / 100}</td>
            <td data-name="Next special">
              <NextSpecial depot={depot} />
            </td>
            <td data-name="Time zone" className={styles.last}>
              {depot.time_zone}
            </td>
          </tr>
          {open === depot.id && (
            <tr data-kind="opened">
              <td colSpan={6} className={styles.opened}>
                <DepotForm before={depot} />
              </td>
            </tr>
          )}
        </Fragment>
      ))}
    </tbody>
  </table>
);

function NextSpecial({ depot }: { depot: Depot }) {
  const today = todayAt(depot.time_zone, new Date());
  const next = depot.special_days.find(({ day }) => day >= today);
  if (next === undefined) return <>{noFigure}</>;
  return (
    <span>
      {formatDay(next.day)}
      {next.note !== '' && <small>{next.note}</small>}
    </span>
  );
}
