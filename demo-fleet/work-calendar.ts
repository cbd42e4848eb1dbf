import type { DepotInput } from '#server/contract/fleet.ts';
import { DAY_MS } from './calendar.ts';
import type { DepotBuild } from './depots.ts';
import { Random } from './random.ts';

const weekdays = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'] as const;

export const dayText = (day: number): string => new Date(day * DAY_MS).toISOString().slice(0, 10);

/** Monday, counted in days, of the week after the one in which a day lies; 1970-01-01 was a Thursday. */
const nextMonday = (day: number): number => day + 7 - ((day + 3) % 7);

/** When a depot works, with what is special about the two weeks after the fleet's last day. */
export function describeWorkdays(
  depot: DepotBuild,
  endDay: number,
): Pick<DepotInput, 'week' | 'special_days'> {
  const monday = nextMonday(endDay);
  const hoursOf = (weekday: number) => (depot.workdays.includes(weekday) ? depot.hours : null);
  return {
    week: Object.fromEntries(weekdays.map((name, i) => [name, hoursOf(i)])) as NonNullable<
      DepotInput['week']
    >,
    special_days: (specials[depot.id] ?? []).map(({ ahead, ...special }) => ({
      day: dayText(monday + ahead),
      ...special,
    })),
  };
}

/** `ahead` is counted from the Monday after the fleet's last day. */
const specials: Record<
  string,
  { ahead: number; bays?: number; hours?: { from: string; to: string }; note: string }[]
> = {
  skarrowick: [{ ahead: 2, bays: 0, note: 'Hill fair' }],
  dellforth: [{ ahead: 5, hours: { from: '07:00', to: '12:00' }, note: 'Extra Saturday' }],
  wexenfirth: [{ ahead: 8, hours: { from: '08:00', to: '11:00' }, note: 'Staff meeting' }],
  ulmerholt: [{ ahead: 3, bays: 0, note: 'Lift is tested' }],
};

/** Some vehicles are needed elsewhere for some days. */
export function describeAbsence(unit: string, seed: string, endDay: number) {
  const random = new Random(`${seed}|${unit}|absence`);
  if (!random.chance(0.12)) return {};
  const from = nextMonday(endDay) + random.integer(-3, 8);
  const to = from + random.integer(1, 5);
  return {
    unavailable: [{ from: dayText(from), to: dayText(to), note: absences[random.integer(0, 2)] ?? '' }],
  };
}

const absences = ['Runs for the school service', 'Lent to another depot', 'Body repair'];
