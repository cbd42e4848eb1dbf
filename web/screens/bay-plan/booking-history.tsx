import { useState } from 'react';
import { useVehicleHistory } from '#web/api/use-vehicle.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { Button } from '#web/ui/button.tsx';
import styles from './beside.module.css';

const mostShown = 5;

/** What was done with the bookings of a vehicle, by whom and when, newest first. */
export function BookingHistory({ vehicle }: { vehicle: string }) {
  const [isAll, setAll] = useState(false);
  const { data } = useVehicleHistory(vehicle);
  const events = (data?.events ?? []).filter(({ kind }) => kind === 'booked' || kind.startsWith('booking_'));
  if (events.length === 0) return null;
  return (
    <section className={styles.history}>
      <h3>What was done</h3>
      <ol>
        {(isAll ? events : events.slice(0, mostShown)).map((event) => (
          <li key={`${event.at} ${event.text}`}>
            <time dateTime={event.at}>{formatMoment(event.at)}</time>
            <span>{event.text}</span>
          </li>
        ))}
      </ol>
      {events.length > mostShown && !isAll && (
        <Button kind="quiet" onClick={() => setAll(true)}>
          Show all {events.length}
        </Button>
      )}
    </section>
  );
}
