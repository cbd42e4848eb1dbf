import { Link } from '@tanstack/react-router';
import type { ListedBooking } from '#server/contract/bookings.ts';
import type { VehicleDetail } from '#server/contract/vehicle.ts';
import { changesBookings, seesBayPlan } from '#web/api/role-rights.ts';
import { useDepotName } from '#web/api/use-fleet-names.ts';
import { usePerson } from '#web/api/use-session.ts';
import { findMonday } from '#web/format/days.ts';
import { formatDay } from '#web/format/format-day.ts';
import head from '#web/ui/distance-head.module.css';
import { sayOpenBooking } from './say-open-booking.ts';

/** Whether a bay waits for the vehicle, with the way to it; where none does, the way to find one. */
export function BookingLine({ detail }: { detail: VehicleDetail }) {
  const person = usePerson();
  const depotName = useDepotName();
  if (person === null || detail.retired) return null;
  if (detail.booking !== null)
    return (
      <p data-past={detail.booking.past || undefined}>
        <span className={head.label}>Booking </span>
        {seesBayPlan(person.role) ? (
          <Link to="/bay-plan" search={leadTo(detail.booking)}>
            {sayOpenBooking(detail.booking, depotName)}
          </Link>
        ) : (
          sayOpenBooking(detail.booking, depotName)
        )}
      </p>
    );
  if (!changesBookings(person.role)) return null;
  return (
    <p>
      <span className={head.label}>Booking </span>
      {sayNoDay(detail.assessment)}{' '}
      <Link to="/bay-plan" search={{ book: detail.vehicle }}>
        Find a day
      </Link>
    </p>
  );
}

function sayNoDay(assessment: VehicleDetail['assessment']): string {
  if (assessment?.inspected_on != null)
    return `none: inspected ${formatDay(assessment.inspected_on)}, and not graded worse since.`;
  return assessment?.grade === 'hold' ? 'none: on hold without a day.' : 'none.';
}

const leadTo = ({ id, day }: ListedBooking) => ({
  open: id,
  ...(day === null ? {} : { from: findMonday(day) }),
});
