import { formatMomentAt } from '#web/format/format-date.ts';
import { isZone } from '#web/format/zones.ts';

export interface Clock {
  zone: string;
  /** '4 Mar 2026, 14:32' */
  moment(at: string): string;
  /** '4 Mar 2026' */
  date(at: string | null): string;
}

/** Times as clocks show them at the depot: paper has no reader's zone to go by. */
export function tellTimes(timeZone: string): Clock {
  const zone = isZone(timeZone) ? timeZone : 'UTC';
  const day = new Intl.DateTimeFormat('en-GB', {
    day: 'numeric',
    month: 'short',
    year: 'numeric',
    timeZone: zone,
  });
  return {
    zone,
    moment: (at) => formatMomentAt(at, zone),
    date: (at) => (at === null ? '–' : day.format(new Date(at))),
  };
}
