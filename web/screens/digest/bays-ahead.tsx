import { useId } from 'react';
import type { Digest } from '#server/contract/digest.ts';
import { formatHourNumber, formatHours } from '#web/format/format-day.ts';
import styles from './digest.module.css';

type Depot = Digest['ahead'][number];

/** Hours of the bays in the week, and how much of them is booked, all on one scale. */
export function BaysAhead({ ahead }: { ahead: readonly Depot[] }) {
  const id = useId();
  const most = Math.max(1, ...ahead.map((depot) => Math.max(depot.bay_hours, depot.booked_hours)));
  return (
    <section className={styles.part} data-empty={ahead.length === 0} aria-labelledby={id}>
      <h2 id={id} className={styles.name}>
        Bays of the week
      </h2>
      <div className={styles.content}>
        {ahead.length === 0 && <p className={styles.none}>No depot is set up.</p>}
        {ahead.length > 0 && (
          <ul className={styles.lines} data-folded={false}>
            {ahead.map((depot) => (
              <li key={depot.depot} className={styles.line} data-bays="">
                <div className={styles.who}>
                  <span className={styles.unit}>{depot.name}</span>
                </div>
                <Load depot={depot} most={most} />
                <p className={styles.text}>{sayLoad(depot)}</p>
              </li>
            ))}
          </ul>
        )}
      </div>
    </section>
  );
}

/** The thin line is what there is, the thick one what is booked; what is over stands out beyond the end. */
function Load({ depot: { bay_hours: hours, booked_hours: booked }, most }: { depot: Depot; most: number }) {
  const share = (value: number) => `${(100 * value) / most}%`;
  return (
    <svg className={styles.load} width="100%" height="20" aria-hidden="true">
      <line className={styles.room} x1="0" x2={share(hours)} y1="10" y2="10" />
      <rect className={styles.booked} x="0" y="6" width={share(booked)} height="8" />
      <line className={styles.end} x1={share(hours)} x2={share(hours)} y1="2" y2="18" />
    </svg>
  );
}

function sayLoad({ bay_hours: hours, booked_hours: booked, bookings }: Depot): string {
  if (hours === 0 && bookings === 0) return 'no bay hours in this week';
  const count = bookings === 1 ? '1 booking' : `${bookings} bookings`;
  const over = booked > hours ? `, ${formatHours(booked - hours)} more than there are` : '';
  return `${formatHourNumber(booked)} of ${formatHours(hours)} booked${over}, ${count}`;
}
