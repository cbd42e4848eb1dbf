import type { Digest } from '#server/contract/digest.ts';

/** One line of the mail: what it is about, and what is said of it. */
export interface MailLine {
  name: string;
  /** name of the depot, or what it is; null where there is nothing to say */
  place: string | null;
  text: string;
  /** whether the name is a vehicle's, which has a screen */
  isVehicle: boolean;
}

export interface MailSection {
  title: string;
  /** of all lines, shown or not; null where nothing is counted */
  count: number | null;
  lines: MailLine[];
  /** how many lines are left to the screen */
  more: number;
}

/** Lines that somebody reads in a mail; the screen has all of them. */
const MOST_LINES = 15;

/** The digest in the order of urgency, as the screen has it. */
export function listMailSections(digest: Digest): MailSection[] {
  const { gone_quiet: quiet } = digest;
  const names = new Map(digest.ahead.map(({ depot, name }) => [depot, name]));
  const vehicles = (lines: readonly { vehicle: string; depot: string | null; text: string }[]) =>
    lines.map(({ vehicle, depot, text }) => ({
      name: vehicle,
      place: depot === null ? null : (names.get(depot) ?? depot),
      text,
      isVehicle: true,
    }));
  const others = (lines: readonly { name: string; text: string }[], place: string | null) =>
    lines.map(({ name, text }) => ({ name, place, text, isVehicle: false }));
  return [
    section('On hold without a day', vehicles(digest.uncovered_holds ?? [])),
    section('Newly on hold', vehicles(digest.newly_on_hold)),
    section('Got worse', vehicles(digest.got_worse), digest.got_worse_more),
    section('Over and not closed', vehicles(digest.not_closed ?? [])),
    section('Gone quiet', [...others(quiet.gateways ?? [], 'key of a gateway'), ...vehicles(quiet.vehicles)]),
    section('Newly booked', vehicles(digest.newly_booked)),
    section('Inspected', vehicles(digest.inspected)),
    {
      ...section(
        'Bays of this week',
        others(
          digest.ahead.map((depot) => ({ name: depot.name, text: loadWords(depot) })),
          null,
        ),
      ),
      count: null,
    },
  ];
}

const section = (title: string, lines: MailLine[], more = 0): MailSection => ({
  title,
  count: lines.length + more,
  lines: lines.slice(0, MOST_LINES),
  more: more + Math.max(0, lines.length - MOST_LINES),
});

/** '12 of 90 h booked, 4 bookings.' */
function loadWords({ bay_hours, booked_hours, bookings }: Digest['ahead'][number]): string {
  if (bay_hours === 0 && bookings === 0) return 'No working hours.';
  const hours = (value: number) => String(Math.round(value * 10) / 10);
  return `${hours(booked_hours)} of ${hours(bay_hours)} h booked, ${bookings} ${bookings === 1 ? 'booking' : 'bookings'}.`;
}
