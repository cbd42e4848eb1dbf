import type { BayPlan, Booking, PlannedBooking } from '#server/contract/bookings.ts';

const without = <T extends Booking>(list: readonly T[], id: number): T[] =>
  list.filter((one) => one.id !== id);

/** The plan with a booking as it now is, wherever it stood before, and the hours of its days with it. */
export function placeBooking(plan: BayPlan, booking: Booking): BayPlan {
  const { id, day, state } = booking;
  const isShown =
    day !== null &&
    day >= plan.from &&
    day <= plan.to &&
    state !== 'cancelled' &&
    state !== 'put_off' &&
    plan.depots.some((depot) => depot.id === booking.depot);
  const before = plan.bookings.find((one) => one.id === id);
  // Wherever the server has just put it, it fits.
  const planned: PlannedBooking = { fits: true, why_not: null, ...booking };
  const bookings = [...without(plan.bookings, id), ...(isShown ? [planned] : [])];
  return {
    ...plan,
    bookings,
    put_off: [...without(plan.put_off, id), ...(state === 'put_off' ? [booking] : [])],
    past: [...without(plan.past, id), ...(state === 'booked' && booking.past ? [booking] : [])],
    uncovered_holds:
      state === 'booked' && !booking.past
        ? plan.uncovered_holds.filter(({ vehicle }) => vehicle !== booking.vehicle)
        : plan.uncovered_holds,
    depots: plan.depots.map((depot) =>
      addHours(addHours(depot, before, -1), isShown ? booking : undefined, 1),
    ),
  };
}

type PlanDepot = BayPlan['depots'][number];

/** Only what changes is a new object: the rest of the grid is not drawn again. */
function addHours(depot: PlanDepot, booking: Booking | undefined, sign: 1 | -1): PlanDepot {
  if (booking === undefined || booking.depot !== depot.id || booking.hours === null) return depot;
  const hours = booking.hours * sign;
  return {
    ...depot,
    days: depot.days.map((one) =>
      one.day === booking.day ? { ...one, booked_hours: one.booked_hours + hours } : one,
    ),
  };
}
