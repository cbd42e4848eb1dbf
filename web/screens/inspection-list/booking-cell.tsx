import type { RankingRow } from '#server/contract/ranking.ts';
import type { FleetNames } from '#web/api/use-fleet-names.ts';
import { BookingLink } from './booking-link.tsx';
import styles from './list-table.module.css';
import { sayBooking } from './say-booking.ts';

/** The open booking of a vehicle, in two lines; nothing where there is none. */
export function BookingCell({ row: { booking, depot }, names }: { row: RankingRow; names: FleetNames }) {
  if (booking === null) return null;
  const { first, second } = sayBooking(booking, depot, names.depot);
  return (
    <BookingLink booking={booking} className={styles.booked}>
      <span>{first}</span>
      {second !== '' && <span className={styles.second}>{second}</span>}
    </BookingLink>
  );
}
