import type { Hours, SpecialDay } from '#server/contract/calendar.ts';
import type { Depot, DepotInput } from '#server/contract/fleet.ts';
import { type Weekday, weekdays } from '#server/contract/words.ts';
import { isDay } from '#web/format/days.ts';
import { readClock } from '#web/format/read-clock.ts';
import { readNumber } from '#web/format/read-number.ts';
import { isZone } from '#web/format/zones.ts';

export interface DayDraft {
  open: boolean;
  from: string;
  to: string;
}

export interface SpecialDraft {
  /** of the line on the screen, whatever day it has */
  key: number;
  /** the day that is stored; empty for a new line */
  stored: string;
  day: string;
  closed: boolean;
  /** empty: as many as usual */
  bays: string;
  /** empty: those of its weekday */
  from: string;
  to: string;
  note: string;
}

/** What stands in the fields. */
export interface DepotDraft {
  id: string;
  name: string;
  bays: string;
  timeZone: string;
  week: Record<Weekday, DayDraft>;
  specialDays: SpecialDraft[];
}

/** By the name that the server has for the field, such as 'week.monday.to'. */
export type DepotFaults = Record<string, string>;

const usual: DayDraft = { open: true, from: '07:00', to: '16:00' };
const isWeekend = (day: Weekday): boolean => day === 'saturday' || day === 'sunday';

export const newDepot = (timeZone: string): DepotDraft => ({
  id: '',
  name: '',
  bays: '1',
  timeZone,
  week: Object.fromEntries(
    weekdays.map((day) => [day, { ...usual, open: !isWeekend(day) }]),
  ) as DepotDraft['week'],
  specialDays: [],
});

export const toDraft = (depot: Depot): DepotDraft => ({
  id: depot.id,
  name: depot.name,
  bays: String(depot.bays),
  timeZone: depot.time_zone,
  week: Object.fromEntries(
    weekdays.map((day) => [
      day,
      depot.week[day] === null ? { ...usual, open: false } : { open: true, ...depot.week[day] },
    ]),
  ) as DepotDraft['week'],
  specialDays: depot.special_days.map(({ day, bays, hours, note }, key) => ({
    key,
    stored: day,
    day,
    closed: bays === 0,
    bays: bays === null || bays === 0 ? '' : String(bays),
    from: hours?.from ?? '',
    to: hours?.to ?? '',
    note,
  })),
});

const MOST_BAYS = 500;
const idShape = /^[\p{L}\p{N}][\p{L}\p{N} ._/-]*$/u;
const needsClock = 'A time such as 07:30.';
const needsOrder = 'They end before they begin.';

/** The depot that stands in the fields, or what is wrong with each of them; `taken` are ids of other depots. */
export function readDraft(
  draft: DepotDraft,
  taken: readonly string[] = [],
): { depot: Depot | null; faults: DepotFaults } {
  const faults: DepotFaults = {};
  const id = draft.id.trim();
  const name = draft.name.trim();
  if (id === '') faults.id = 'An id is needed.';
  else if (taken.includes(id)) faults.id = 'Another depot has this id.';
  else if (!idShape.test(id))
    faults.id = 'It begins with a letter or digit and holds letters, digits, space . _ / - alone.';
  if (name === '') faults.name = 'A name is needed.';
  const bays = readNumber(draft.bays, { least: 0, most: MOST_BAYS, step: 1 });
  if (bays.fault !== undefined) faults.bays = bays.fault;
  const zone = draft.timeZone.trim();
  if (!isZone(zone)) faults.time_zone = 'There is no such time zone. Choose one, such as Europe/Vienna.';
  const week = Object.fromEntries(
    weekdays.map((day) => [
      day,
      draft.week[day].open ? readHours(draft.week[day], `week.${day}`, faults) : null,
    ]),
  ) as Depot['week'];
  const specialDays = draft.specialDays.map((one, i) => readSpecial(one, `special_days.${i}`, week, faults));
  tellTwice(draft.specialDays, faults);
  const opens =
    weekdays.some((day) => draft.week[day].open) || specialDays.some(({ hours }) => hours !== null);
  if (!opens && bays.value !== 0)
    faults.week = 'Nobody works on any day, so nothing could be booked: open a weekday, or set bays to 0.';
  if (Object.keys(faults).length > 0) return { depot: null, faults };
  return {
    depot: {
      id,
      name,
      bays: bays.value ?? 0,
      time_zone: zone,
      week,
      special_days: specialDays.toSorted((a, b) => (a.day < b.day ? -1 : 1)),
    },
    faults,
  };
}

/** What differs between a stored depot and one of the fields: the rest stays as others may have changed it meanwhile. */
export function listChanges(before: Depot, after: Depot): DepotInput {
  const { id, name, bays, week, special_days } = after;
  const differs = (key: keyof Depot) => !isSame(before[key], after[key]);
  // A week without a working day is refused by itself.
  const isShut = differs('week') && weekdays.every((day) => week[day] === null);
  return {
    id,
    name,
    ...(differs('bays') || isShut ? { bays } : {}),
    ...(differs('time_zone') ? { time_zone: after.time_zone } : {}),
    ...(differs('week') ? { week } : {}),
    ...(differs('special_days') || isShut ? { special_days } : {}),
  };
}

/** A stored depot as its fields would have it. */
export const tidy = (depot: Depot): Depot => readDraft(toDraft(depot)).depot ?? depot;

/** Storage keeps the parts of a depot in an order of its own. */
export function isSame(a: unknown, b: unknown): boolean {
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return a === b;
  const [left, right] = [new Map(Object.entries(a)), new Map(Object.entries(b))];
  return left.size === right.size && [...left].every(([key, value]) => isSame(value, right.get(key)));
}

function readHours({ from, to }: { from: string; to: string }, at: string, faults: DepotFaults): Hours {
  const hours = { from: readClock(from) ?? '', to: readClock(to) ?? '' };
  if (hours.from === '') faults[`${at}.from`] = needsClock;
  if (hours.to === '') faults[`${at}.to`] = needsClock;
  else if (hours.from !== '' && hours.to <= hours.from) faults[`${at}.to`] = needsOrder;
  return hours;
}

function readSpecial(
  { day, closed, bays, from, to, note }: SpecialDraft,
  at: string,
  week: Depot['week'],
  faults: DepotFaults,
): SpecialDay {
  if (day === '') faults[`${at}.day`] = 'A day is needed.';
  else if (!isDay(day)) faults[`${at}.day`] = 'A day of the years 1900 to 2199.';
  if (closed) return { day, bays: 0, hours: null, note: note.trim() };
  const count = bays.trim() === '' ? null : readNumber(bays, { least: 1, most: MOST_BAYS, step: 1 });
  if (count?.fault !== undefined) faults[`${at}.bays`] = count.fault;
  const hours =
    from.trim() === '' && to.trim() === '' ? null : readHours({ from, to }, `${at}.hours`, faults);
  if (hours === null && day !== '' && week[weekdayOf(day)] === null)
    faults[`${at}.hours.from`] = 'Nobody works on this weekday: say the hours.';
  return { day, bays: count?.value ?? null, hours, note: note.trim() };
}

function tellTwice(days: readonly SpecialDraft[], faults: DepotFaults): void {
  const seen = new Set<string>();
  for (const [i, { day }] of days.entries()) {
    if (day !== '' && seen.has(day)) faults[`special_days.${i}.day`] = 'This day is there already.';
    seen.add(day);
  }
}

export function weekdayOf(day: string): Weekday {
  const number = new Date(`${day}T00:00:00Z`).getUTCDay();
  return weekdays[(number + 6) % 7] ?? 'monday';
}
