import type { PlanDepot, PlanLeftOut } from '#server/contract/plan.ts';
import type { LeftOutReason } from '#server/contract/words.ts';
import { sayDay, sayList } from '#server/services/bookings/booking-words.ts';
import type { DepotRoom } from './sort-vehicles.ts';

/** More names than this do not help whoever reads them. */
const MOST_NAMED = 12;

export interface WarningInput {
  leftOut: readonly PlanLeftOut[];
  rooms: readonly DepotRoom[];
  depots: readonly PlanDepot[];
  /** holds that could still get a day, for all that is proved */
  holdsInDoubt: number;
}

/** What must be read before a plan is accepted, the gravest first. */
export function planWarnings({ leftOut, rooms, depots, holdsInDoubt }: WarningInput): string[] {
  const onHold = leftOut.filter(({ grade }) => grade === 'hold');
  const uncovered = onHold.filter(({ reason }) => reason !== 'inspected');
  const inspected = onHold.filter(({ reason }) => reason === 'inspected');
  const homeless = leftOut.filter(({ reason }) => reason === 'no_depot');
  const warnings: string[] = [];
  if (uncovered.length > 0)
    warnings.push(
      `${counted(uncovered.length)} on hold ${uncovered.length === 1 ? 'gets' : 'get'} no day: ${named(uncovered)}. Do not dispatch ${uncovered.length === 1 ? 'it' : 'them'}. ${whatCanBeDone(uncovered, rooms, depots)}`,
    );
  if (holdsInDoubt > 0)
    warnings.push(
      `It is not proved that no more of them could get a day: ${holdsInDoubt} more at the most. Plan fewer depots at once to give each more time.`,
    );
  if (inspected.length > 0)
    warnings.push(
      `${counted(inspected.length)} still on hold ${inspected.length === 1 ? 'was' : 'were'} inspected within the last two weeks, so no day is proposed: ${named(inspected)}. Look at what was found, or book by hand.`,
    );
  for (const { depot, days, from, to, today } of rooms)
    if (days.length === 0)
      warnings.push(
        depot.bays === 0 && depot.specialDays.every(({ bays }) => bays === null || bays === 0)
          ? `${depot.name} has no bays, so nothing is planned there.`
          : `Nobody works in the bays of ${depot.name} from ${sayDay(from, today)} to ${sayDay(to, today)}, so nothing is planned there.`,
      );
  if (homeless.length > 0)
    warnings.push(
      `${counted(homeless.length)} that ${homeless.length === 1 ? 'asks' : 'ask'} for a day ${homeless.length === 1 ? 'belongs' : 'belong'} to no depot: ${named(homeless)}. Say where ${homeless.length === 1 ? 'it belongs' : 'they belong'} to have ${homeless.length === 1 ? 'it' : 'them'} planned.`,
    );
  const unbounded = depots.filter(({ gap }) => gap === null).map(({ name }) => name);
  if (unbounded.length > 0)
    warnings.push(
      `It is not known how much better the plan of ${sayList(unbounded)} could be. Plan fewer days or vehicles at once${depots.length > 1 ? ', or fewer depots,' : ''} to know.`,
    );
  return warnings;
}

const counted = (n: number): string => (n === 1 ? '1 vehicle' : `${n} vehicles`);

const named = (vehicles: readonly PlanLeftOut[]): string =>
  sayList(
    vehicles.map(({ vehicle }) => vehicle),
    MOST_NAMED,
  );

function whatCanBeDone(
  uncovered: readonly PlanLeftOut[],
  rooms: readonly DepotRoom[],
  depots: readonly PlanDepot[],
): string {
  const has = (...reasons: LeftOutReason[]) => uncovered.some(({ reason }) => reasons.includes(reason));
  const advice: string[] = [];
  for (const { name, depot, extra_bay_day: extra } of depots)
    if (extra?.day != null && extra.holds > 0) {
      const today = rooms.find((room) => room.depot.id === depot)?.today ?? '';
      advice.push(
        `One more bay at ${name} on ${sayDay(extra.day, today)} would take ${extra.holds === 1 ? 'one' : extra.holds} of them.`,
      );
    }
  if (has('no_room', 'no_working_day', 'too_long'))
    advice.push('Plan more days, add a bay or hours, or move a booking that is not on hold.');
  if (has('unavailable')) advice.push('Free those that are away on every day.');
  if (has('past_booking')) advice.push('Close the bookings that are over.');
  if (has('misfit_booking')) advice.push('Move the bookings that no longer fit the calendar.');
  return advice.join(' ');
}
