import type { Hours } from '#server/contract/calendar.ts';
import type { Depot } from '#server/contract/fleet.ts';
import { hoursBetween } from '#web/format/read-clock.ts';
import { weekdayOf } from './depot-draft.ts';

export interface ToldDay {
  /** `closed`: a weekday on which nobody works; `off`: a holiday; `short`, `extra`: less, more than usual */
  kind: 'open' | 'closed' | 'off' | 'short' | 'extra';
  bays: number;
  hours: Hours | null;
  note: string;
}

/** A day of the calendar of a depot, set against what its weekday usually has. */
export function tellDay({ bays, week, special_days: special }: Depot, day: string): ToldDay {
  const usual = week[weekdayOf(day)];
  const own = special.find((one) => one.day === day);
  const hours = own?.hours ?? usual;
  const count = own?.bays ?? bays;
  const note = own?.note ?? '';
  if (hours === null || count === 0)
    return { kind: usual === null || bays === 0 ? 'closed' : 'off', bays: 0, hours: null, note };
  const usualBayHours = usual === null ? 0 : bays * hoursBetween(usual.from, usual.to);
  const bayHours = count * hoursBetween(hours.from, hours.to);
  const kind = bayHours > usualBayHours ? 'extra' : bayHours < usualBayHours ? 'short' : 'open';
  return { kind, bays: count, hours, note };
}
