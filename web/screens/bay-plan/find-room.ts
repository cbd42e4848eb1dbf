import type { BayPlan } from '#server/contract/bookings.ts';
import { formatHours } from '#web/format/format-day.ts';
import { readLocalMinutes, readMinutes, writeClock } from './clocks.ts';
import type { Place } from './plan-search.ts';

export type PlanDepot = BayPlan['depots'][number];

/** A bay that somebody has for some time of a day. */
export interface Taken extends Place {
  /** of the booking or the proposal that has it */
  key: string;
  from: string;
  to: string;
}

/** The time at which something fits, or why it does not. */
export type Room = { fits: true; from: string; to: string } | { fits: false; why: string };

export interface Wish {
  hours: number;
  /** the time that it has now, kept where it is free */
  from?: string | null;
  /** its own key: it is not in its own way */
  key?: string;
}

const QUARTER_MIN = 15;
const none = (why: string): Room => ({ fits: false, why });

/** The first time of a bay on a day at which something fits; the server decides, this tells it before the hand lets go. */
export function findRoom(
  depot: PlanDepot,
  { day, bay }: Pick<Place, 'day' | 'bay'>,
  wish: Wish,
  taken: readonly Taken[],
  now: string,
): Room {
  const one = depot.days.find((other) => other.day === day);
  if (one === undefined) return none('outside the days shown');
  if (day < depot.today) return none('this day is over');
  if (one.hours === null || one.bays === 0) return none(sayClosed(one.note));
  if (bay > one.bays)
    return none(`${one.bays === 1 ? 'only bay 1' : `only bays 1 to ${one.bays}`} on this day`);
  const opens = readMinutes(one.hours.from);
  const closes = readMinutes(one.hours.to);
  const length = wish.hours * 60;
  if (length > closes - opens) return none(`open for ${formatHours((closes - opens) / 60)} only`);
  const earliest =
    day === depot.today ? Math.max(opens, roundUp(readLocalMinutes(depot.time_zone, now))) : opens;
  const spans = taken
    .filter(
      (other) => other.bay === bay && other.day === day && other.depot === depot.id && other.key !== wish.key,
    )
    .map(({ from, to }) => ({ from: readMinutes(from), to: readMinutes(to) }))
    .sort((a, b) => a.from - b.from);
  const start = findStart(spans, {
    length,
    earliest,
    closes,
    wanted: wish.from == null ? null : readMinutes(wish.from),
  });
  if (start === null) return none(`no ${formatHours(wish.hours)} free`);
  return { fits: true, from: writeClock(start), to: writeClock(start + length) };
}

export const sayClosed = (note: string): string => (note === '' ? 'closed' : `closed: ${note}`);

const roundUp = (minutes: number): number => Math.ceil(minutes / QUARTER_MIN) * QUARTER_MIN;

interface Search {
  length: number;
  earliest: number;
  closes: number;
  wanted: number | null;
}

function findStart(
  spans: readonly { from: number; to: number }[],
  { length, earliest, closes, wanted }: Search,
): number | null {
  const isFree = (start: number) =>
    start >= earliest &&
    start + length <= closes &&
    spans.every(({ from, to }) => start + length <= from || start >= to);
  if (wanted !== null && isFree(wanted)) return wanted;
  const starts = [earliest, ...spans.map(({ to }) => to)];
  return starts.sort((a, b) => a - b).find(isFree) ?? null;
}

/** The same in the bay that is asked for, or in the first that has room. */
export function findRoomOnDay(
  depot: PlanDepot,
  { day, bay }: { day: string; bay: number | null },
  wish: Wish,
  taken: readonly Taken[],
  now: string,
): (Room & { fits: true; bay: number }) | (Room & { fits: false }) {
  const bays = depot.days.find((one) => one.day === day)?.bays ?? 0;
  const tries = bay === null ? Array.from({ length: Math.max(1, bays) }, (_, i) => i + 1) : [bay];
  let why = '';
  for (const one of tries) {
    const room = findRoom(depot, { day, bay: one }, wish, taken, now);
    if (room.fits) return { ...room, bay: one };
    why = room.why;
  }
  return { fits: false, why };
}

/** The first day and bay with room, day by day and bay by bay. */
export function findFirstRoom(
  depot: PlanDepot,
  wish: Wish,
  taken: readonly Taken[],
  now: string,
): (Place & { from: string }) | null {
  for (const { day, bays } of depot.days) {
    const room = findRoomOnDay(depot, { day, bay: null }, wish, taken, now);
    if (bays > 0 && room.fits) return { depot: depot.id, day, bay: room.bay, from: room.from };
  }
  return null;
}
