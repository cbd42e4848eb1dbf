import { Link } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import type { ListedBooking } from '#server/contract/bookings.ts';
import { seesBayPlan } from '#web/api/role-rights.ts';
import { usePerson } from '#web/api/use-session.ts';
import { findMonday } from '#web/format/days.ts';

interface Props {
  booking: ListedBooking;
  className?: string | undefined;
  children: ReactNode;
}

/** Leads to the booking in the bay plan, whoever may see that; others read it. */
export function BookingLink({ booking: { id, depot, day }, className, children }: Props) {
  const person = usePerson();
  if (person === null || !seesBayPlan(person.role)) return <span className={className}>{children}</span>;
  return (
    <Link
      className={className}
      to="/bay-plan"
      search={{ depot, ...(day === null ? {} : { from: findMonday(day) }), open: id }}
    >
      {children}
    </Link>
  );
}
