import type { PlannableVehicle } from '#db/queries/list-plannable.ts';
import type { Grade, LeftOutReason } from '#server/contract/words.ts';
import type { BayDay } from '#server/engine/planning/planning-model.ts';
import { objectToPlanned } from '#server/services/bookings/object-to-planned.ts';
import { localOf } from '#server/services/calendar/local-time.ts';
import type { DepotSpan } from './planned-depots.ts';
import type { PlannedPlatform } from './read-platforms.ts';
import { type Scales, weighVehicle } from './weigh-vehicle.ts';

/** A depot with what is free in it, working day by working day. */
export interface DepotRoom extends DepotSpan {
  room: BayDay[];
}

export interface SortedVehicle {
  row: PlannableVehicle;
  grade: Grade;
  scales: Scales;
  quarters: number;
  /** its home depot, where that is planned */
  depot: DepotRoom | null;
  /** why its booking ahead no longer fits the calendar */
  misfit: string | null;
}

/** What became of each vehicle before anything is planned. */
export interface SortedFleet {
  candidates: SortedVehicle[];
  leftOut: (SortedVehicle & { reason: LeftOutReason })[];
  /** with a day ahead of them */
  booked: (SortedVehicle & { day: string })[];
  /** of the newest assessment */
  asOf: Date | null;
}

export interface SortRules {
  rooms: ReadonlyMap<string, DepotRoom>;
  platformOf: (platform: string | null) => PlannedPlatform;
  usualPaces: ReadonlyMap<string, number>;
  /** vehicles that were asked for by name, which are told of whatever they are worth */
  named: ReadonlySet<string>;
  countedTo: string;
  now: Date;
}

/** Tells who can be given a day from who cannot, or need not, and why. */
export async function sortVehicles(
  pages: AsyncIterable<readonly PlannableVehicle[]>,
  rules: SortRules,
): Promise<SortedFleet> {
  const sorted: SortedFleet = { candidates: [], leftOut: [], booked: [], asOf: null };
  for await (const page of pages)
    for (const row of page) {
      sortVehicle(row, rules, sorted);
      if (row.asOf !== null && (sorted.asOf === null || row.asOf > sorted.asOf)) sorted.asOf = row.asOf;
    }
  sorted.candidates.sort((a, b) => (a.row.rank ?? 0) - (b.row.rank ?? 0) || a.row.key - b.row.key);
  return sorted;
}

function sortVehicle(
  row: PlannableVehicle,
  { rooms, platformOf, usualPaces, named, countedTo, now }: SortRules,
  sorted: SortedFleet,
): void {
  const depot = rooms.get(row.depot ?? '') ?? null;
  const today = depot?.today ?? now.toISOString().slice(0, 10);
  const platform = platformOf(row.platform);
  const one: SortedVehicle = {
    row,
    grade: row.grade ?? 'unknown',
    scales: weighVehicle(row, platform.costs, usualPaces, today, countedTo),
    quarters: 4 * platform.inspectionHours,
    depot,
    misfit: findMisfit(row, now),
  };
  const { booking } = row;
  const isBooked = booking?.state === 'booked';
  if (isBooked && one.misfit === null && isAhead(booking, now)) {
    sorted.booked.push({ ...one, day: booking.day ?? today });
    return;
  }
  const reason = tellBooking(one.misfit, isBooked) ?? (row.inspectedOn === null ? bar(one) : 'inspected');
  if (reason === null) sorted.candidates.push(one);
  else if (asksForDay(one, depot?.from ?? today) || named.has(row.unit))
    sorted.leftOut.push({ ...one, reason });
}

/** What has to be done about a booking that gives no day before another could; one that waits is moved. */
function tellBooking(misfit: string | null, isBooked: boolean): LeftOutReason | null {
  if (misfit !== null) return 'misfit_booking';
  return isBooked ? 'past_booking' : null;
}

/** Why a vehicle cannot be given a day, or need not; null where it can. */
function bar({ row, grade, scales, quarters, depot }: SortedVehicle): LeftOutReason | null {
  if (row.depot === null || depot === null) return 'no_depot';
  if (depot.days.length === 0) return 'no_working_day';
  if (depot.room.every(({ extra }) => extra.toQuarter - extra.fromQuarter < quarters)) return 'too_long';
  if (grade !== 'hold' && scales.kmPerDay === 0) return 'stands';
  const first = depot.days.find(({ day }) => !isAway(row, day));
  if (first === undefined) return 'unavailable';
  return grade === 'hold' || scales.on(first.day).value > 0 ? null : 'not_worth_it';
}

const isAhead = ({ endsAt }: { endsAt: Date | null }, now: Date): boolean => endsAt !== null && endsAt > now;

function findMisfit(
  { unit, unavailable, booking, bookingDepot }: PlannableVehicle,
  now: Date,
): string | null {
  if (booking === null || bookingDepot === null || !isAhead(booking, now)) return null;
  return objectToPlanned(
    bookingDepot,
    { booking, unit, unavailable },
    localOf(bookingDepot.timeZone, now).day,
  );
}

export const isAway = ({ unavailable }: PlannableVehicle, day: string): boolean =>
  unavailable.some(({ from, to }) => from <= day && day <= to);

const asksForDay = ({ grade, scales }: SortedVehicle, first: string): boolean =>
  grade === 'hold' || grade === 'book' || scales.on(first).value > 0;
