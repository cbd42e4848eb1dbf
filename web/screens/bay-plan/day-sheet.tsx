import type { BayPlan } from '#server/contract/bookings.ts';
import { useVehicles } from '#web/api/use-vehicle.ts';
import { formatMomentAt } from '#web/format/format-date.ts';
import { formatHourNumber, formatWholeDay } from '#web/format/format-day.ts';
import { DayJobs } from './day-jobs.tsx';
import styles from './day-sheet.module.css';
import { DayStrip } from './day-strip.tsx';
import { type PlanDepot, sayClosed } from './find-room.ts';

/** The sheet itself: which bay has whom at what hour, and a line for each vehicle with room for a remark. */
export function DaySheet({ plan, depot, day }: { plan: BayPlan; depot: PlanDepot; day: string }) {
  const about = depot.days.find((one) => one.day === day);
  const bookings = plan.bookings
    .filter((one) => one.depot === depot.id && one.day === day)
    .toSorted((a, b) => `${a.from} ${a.bay}`.localeCompare(`${b.from} ${b.bay}`));
  const details = useVehicles(bookings.map(({ vehicle }) => vehicle));
  const isClosed = about === undefined || about.hours === null;
  return (
    <article className={styles.sheet} data-ready={details.isReady || undefined}>
      <header className={styles.head}>
        <h1>
          {depot.name} <span>{formatWholeDay(day)}</span>
        </h1>
        <p>
          {isClosed
            ? `The depot is ${sayClosed(about?.note ?? '')}.`
            : `${about.bays === 1 ? '1 bay' : `${about.bays} bays`}, ${about.hours?.from} to ${about.hours?.to}. ${formatHourNumber(about.booked_hours)} of ${formatHourNumber(about.bay_hours)} h booked.`}
          {!isClosed && about.note !== '' && ` ${about.note}.`}
        </p>
      </header>
      {bookings.length === 0 ? (
        <p>Nothing is booked on this day.</p>
      ) : (
        <>
          <DayStrip bookings={bookings} hours={about?.hours ?? null} bays={about?.bays ?? 0} />
          <DayJobs bookings={bookings} details={details.byVehicle} />
        </>
      )}
      <footer className={styles.foot}>
        <p>
          Slipdrift advises which vehicle to look at first; it never says that a vehicle is safe. Road tests,
          raised vehicles, hot fluid and exhaust, and pressure can hurt: licensed technicians and the maker’s
          service information decide what is done and how.
        </p>
        <p className={styles.as}>As of {formatMomentAt(plan.now, depot.time_zone)}</p>
      </footer>
    </article>
  );
}
