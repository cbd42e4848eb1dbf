import { Link } from '@tanstack/react-router';
import type { RankingRow } from '#server/contract/ranking.ts';
import { changesBookings } from '#web/api/role-rights.ts';
import type { FleetNames } from '#web/api/use-fleet-names.ts';
import { usePerson } from '#web/api/use-session.ts';
import { BookingLink } from './booking-link.tsx';
import styles from './row-details.module.css';
import { sayBookingInLine, sayNoBooking } from './say-booking.ts';
import { sayWeekAgo } from './say-week-ago.ts';

interface Props {
  row: RankingRow;
  names: FleetNames;
  isShop: boolean;
}

/** What is planned for a vehicle, and where it stood a week ago. */
export function RowPlanning({ row, names, isShop }: Props) {
  const person = usePerson();
  const { booking } = row;
  const mayBook = person !== null && changesBookings(person.role);
  return (
    <div className={styles.planning}>
      {booking !== null ? (
        <p>
          <span className={styles.label}>Booking </span>
          <BookingLink booking={booking}>{sayBookingInLine(booking, row.depot, names.depot)}</BookingLink>
          {booking.from !== null && !booking.past && ` at ${booking.from}`}
        </p>
      ) : (
        mayBook && (
          <p>
            <span className={styles.label}>Booking </span>
            {sayNoBooking(row)}.{' '}
            <Link to="/bay-plan" search={{ book: row.vehicle }}>
              Find a day
            </Link>
          </p>
        )
      )}
      {!isShop && row.week_ago !== null && (
        <p>
          <span className={styles.label}>A week ago </span>
          {sayWeekAgo(row)}
        </p>
      )}
    </div>
  );
}
