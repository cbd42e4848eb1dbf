import type { RankingRow } from '#server/contract/ranking.ts';
import type { FleetNames } from '#web/api/use-fleet-names.ts';
import { BookingLink } from './booking-link.tsx';
import styles from './list-table.module.css';
import { sayBooking, sayNoBooking } from './say-booking.ts';

/** The open booking of a vehicle, in two lines, or its inspection of the last days; nothing where there is neither. */
export function BookingCell({ row, names }: { row: RankingRow; names: FleetNames }) {
  const { booking } = row;
  if (booking === null)
    return row.inspected_on === null ? null : <span className={styles.second}>{sayNoBooking(row)}</span>;
  const { first, second } = sayBooking(booking, row.depot, names.depot);
  return (
    <BookingLink booking={booking} className={styles.booked}>
      <span>{first}</span>
      {second !== '' && <span className={styles.second}>{second}</span>}
    </BookingLink>
  );
}
