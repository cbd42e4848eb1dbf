import type { LeftOutReason } from '#server/contract/words.ts';
import { sayDay, sayHours } from '#server/services/bookings/booking-words.ts';
import type { SortedVehicle } from './sort-vehicles.ts';

/** Why a vehicle gets no day, and what could be done, in a sentence or two. */
export function leftOutWords({ row, quarters, depot, misfit }: SortedVehicle, reason: LeftOutReason): string {
  const name = depot?.depot.name ?? 'its depot';
  const takes = sayHours(quarters / 4);
  const today = depot?.today ?? '';
  switch (reason) {
    case 'no_room':
      return `No bay of ${name} has ${takes} left for it that others do not need more.`;
    case 'not_worth_it':
      return 'Inspecting it within these days costs more than it avoids: it can wait for the next plan.';
    case 'unavailable':
      return `It cannot be taken on any working day of these: its days away are with the vehicle.`;
    case 'no_depot':
      return 'It belongs to no depot, so there is no bay for it: say where it belongs, or book it by hand.';
    case 'no_working_day':
      return depot === null
        ? `Nobody works at ${name} on these days.`
        : `Nobody works in the bays of ${name} from ${sayDay(depot.from, today)} to ${sayDay(depot.to, today)}.`;
    case 'too_long':
      return `Its inspection takes ${takes}, longer than ${name} works on any day of these.`;
    case 'stands':
      return 'It stands: while it is not driven, waiting costs nothing.';
    case 'inspected':
      return 'It was inspected within the last two weeks and has not been graded worse since.';
    case 'past_booking':
      return `Its booking${row.booking?.day == null ? '' : ` of ${sayDay(row.booking.day, today)}`} is over, and nobody has said what came of it: close it, or move it.`;
    case 'misfit_booking':
      return `It has a booking that no longer fits: ${misfit ?? ''} Move it.`;
  }
}
