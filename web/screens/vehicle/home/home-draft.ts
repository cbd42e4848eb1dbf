import type { Unavailability } from '#server/contract/calendar.ts';
import type { VehicleInput } from '#server/contract/fleet.ts';
import type { VehicleDetail } from '#server/contract/vehicle.ts';
import { isDay } from '#web/format/days.ts';

export interface AwayDraft {
  /** of the line on the screen, whatever days it has */
  key: number;
  /** the last day that is stored; empty for a new line */
  stored: string;
  from: string;
  to: string;
  note: string;
}

/** What stands in the fields; an empty depot or platform is none. */
export interface HomeDraft {
  depot: string;
  platform: string;
  away: AwayDraft[];
}

/** By the name that the server has for the field, such as 'unavailable.0.to'. */
export type HomeFaults = Record<string, string>;

type Home = Pick<VehicleDetail, 'depot' | 'platform' | 'unavailable'>;

export const toDraft = ({ depot, platform, unavailable }: Home): HomeDraft => ({
  depot: depot ?? '',
  platform: platform ?? '',
  away: unavailable.map((one, key) => ({ key, stored: one.to, ...one })),
});

const needsYear = 'A day of the years 1900 to 2199.';

/** What the fields change of a vehicle, or what is wrong with each. What was left as it was is left out. */
export function readDraft(
  draft: HomeDraft,
  before: Home,
): { change: Omit<VehicleInput, 'id'> | null; faults: HomeFaults } {
  const faults: HomeFaults = {};
  const away = draft.away.map(({ from, to, note }, i): Unavailability => {
    const last = to === '' ? from : to;
    if (from === '') faults[`unavailable.${i}.from`] = 'A first day is needed.';
    else if (!isDay(from)) faults[`unavailable.${i}.from`] = needsYear;
    else if (!isDay(last)) faults[`unavailable.${i}.to`] = needsYear;
    else if (last < from) faults[`unavailable.${i}.to`] = 'It is before the first day.';
    return { from, to: last, note: note.trim() };
  });
  if (Object.keys(faults).length > 0) return { change: null, faults };
  const ordered = away.toSorted((a, b) => a.from.localeCompare(b.from) || a.to.localeCompare(b.to));
  const [depot, platform] = [draft.depot || null, draft.platform || null];
  return {
    change: {
      ...(depot === before.depot ? {} : { depot }),
      ...(platform === before.platform ? {} : { platform }),
      ...(isSame(ordered, before.unavailable) ? {} : { unavailable: ordered }),
    },
    faults,
  };
}

const isSame = (a: readonly Unavailability[], b: readonly Unavailability[]): boolean =>
  a.length === b.length &&
  a.every((one, i) => one.from === b[i]?.from && one.to === b[i]?.to && one.note === b[i]?.note);
