import type { BayPlan, Booking } from '#server/contract/bookings.ts';
import type { Draft } from '#web/api/use-plan.ts';
import type { PlanDepot } from './find-room.ts';
import { type Item, toBookingItem, toDraftItem } from './plan-items.ts';

export interface GridDay {
  day: string;
  /** nobody works anywhere and nothing lies there: the column is kept narrow */
  narrow: boolean;
  today: boolean;
}

/** One line of the grid: the load of a depot, or one of its bays. */
export interface GridRow {
  depot: PlanDepot;
  /** null for the load */
  bay: number | null;
}

export interface GridDepot {
  depot: PlanDepot;
  /** index of its first row within the grid */
  firstRow: number;
  bays: number;
  bookings: readonly Booking[];
  drafts: readonly Draft[];
}

export interface Grid {
  days: readonly GridDay[];
  rows: readonly GridRow[];
  depots: readonly GridDepot[];
}

/** What stands where. Bays that are no longer there keep a line while something is booked in them. */
export function layOutGrid(plan: BayPlan, drafts: readonly Draft[]): Grid {
  const used = new Set([...plan.bookings, ...drafts].map(({ day }) => day));
  const todays = new Set(plan.depots.map(({ today }) => today));
  const days = (plan.depots[0]?.days ?? []).map(({ day }, i) => ({
    day,
    narrow: !used.has(day) && plan.depots.every((depot) => (depot.days[i]?.bays ?? 0) === 0),
    today: todays.has(day),
  }));
  const rows: GridRow[] = [];
  const depots = plan.depots.map((depot) => {
    const mine = (one: { depot: string }) => one.depot === depot.id;
    const bookings = plan.bookings.filter(mine);
    const proposed = drafts.filter(mine);
    const bays = Math.max(
      depot.bays,
      ...depot.days.map((one) => one.bays),
      ...[...bookings, ...proposed].map(({ bay }) => bay ?? 0),
    );
    const firstRow = rows.length;
    rows.push({ depot, bay: null });
    for (let bay = 1; bay <= bays; bay++) rows.push({ depot, bay });
    return { depot, firstRow, bays, bookings, drafts: proposed };
  });
  return { days, rows, depots };
}

/** Items by bay and day, in the order of the day; keyed `bay day`. */
export function sortIntoCells(bookings: readonly Booking[], drafts: readonly Draft[]): Map<string, Item[]> {
  const cells = new Map<string, Item[]>();
  for (const item of [...bookings.map(toBookingItem), ...drafts.map(toDraftItem)]) {
    const key = `${item.of.bay} ${item.of.day}`;
    const cell = cells.get(key);
    if (cell === undefined) cells.set(key, [item]);
    else cell.push(item);
  }
  for (const cell of cells.values()) cell.sort((a, b) => ((a.of.from ?? '') < (b.of.from ?? '') ? -1 : 1));
  return cells;
}

/** Hours that are proposed at a depot by day. */
export function sumProposed(drafts: readonly Draft[]): Map<string, number> {
  const hours = new Map<string, number>();
  for (const { day, hours: some } of drafts) hours.set(day, (hours.get(day) ?? 0) + some);
  return hours;
}
