import type { Booking } from '#server/contract/bookings.ts';
import type { Hours } from '#server/contract/calendar.ts';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { readMinutes, writeClock } from './clocks.ts';
import styles from './day-sheet.module.css';

interface Props {
  bookings: readonly Booking[];
  hours: Hours | null;
  bays: number;
}

/** Bays down, hours across. The table below says the same in words. */
export function DayStrip({ bookings, hours, bays }: Props) {
  const { opens, closes } = findSpan(bookings, hours);
  const lines = Math.max(bays, ...bookings.map(({ bay }) => bay ?? 0));
  const share = (minutes: number) => `${((minutes - opens) / (closes - opens)) * 100}%`;
  const ticks = Array.from({ length: (closes - opens) / 60 + 1 }, (_, i) => opens + i * 60);
  return (
    <div className={styles.strip} aria-hidden="true">
      <div className={styles.hours}>
        {ticks.map((minutes) => (
          <span key={minutes} className={styles.hour} style={{ left: share(minutes) }}>
            {writeClock(minutes).slice(0, 2)}
          </span>
        ))}
      </div>
      {Array.from({ length: lines }, (_, i) => i + 1).map((bay) => (
        <div key={bay} className={styles.lane}>
          <span className={styles.bay}>bay {bay}</span>
          <div className={styles.track}>
            {ticks.map((minutes) => (
              <span key={minutes} className={styles.tick} style={{ left: share(minutes) }} />
            ))}
            {bookings
              .filter((one) => one.bay === bay)
              .map((one) => {
                const from = readMinutes(one.from ?? '00:00');
                const to = readMinutes(one.to ?? '00:00');
                return (
                  <span
                    key={one.id}
                    className={styles.block}
                    data-done={one.state === 'done' || undefined}
                    style={{ left: share(from), width: `calc(${share(to)} - ${share(from)})` }}
                  >
                    <GradeMark grade={one.grade ?? 'unknown'} withWord={false} />
                    <span>{one.vehicle}</span>
                  </span>
                );
              })}
          </div>
        </div>
      ))}
    </div>
  );
}

/** Whole hours around the working day and all that is booked. */
function findSpan(bookings: readonly Booking[], hours: Hours | null) {
  const starts = [hours?.from, ...bookings.map(({ from }) => from)].filter((clock) => clock != null);
  const ends = [hours?.to, ...bookings.map(({ to }) => to)].filter((clock) => clock != null);
  const opens = Math.floor(Math.min(...starts.map(readMinutes)) / 60) * 60;
  const closes = Math.ceil(Math.max(...ends.map(readMinutes)) / 60) * 60;
  return { opens, closes: Math.max(closes, opens + 60) };
}
