import { Temporal } from 'temporal-polyfill';
import { readThroughput, type ThroughputRow } from '#db/queries/intake-desk/read-throughput.ts';
import type { Throughput } from '#server/contract/intake.ts';
import { SlipdriftError } from '#server/errors.ts';
import { localOf, momentOf } from '#server/services/calendar/local-time.ts';
import type { Context } from '#server/services/context.ts';
import { requireAllDepots } from '#server/services/sight.ts';

const HOURS = 48;
const DAYS = 60;
const HOUR_MS = 3_600_000;

/** Lines by hour and by day; an hour or a day without a delivery is there too. */
export async function getThroughput({ db, actor, now }: Context, zone: string): Promise<Throughput> {
  requireAllDepots(actor, 'The throughput');
  const today = dayAt(zone, now());
  const firstDay = Temporal.PlainDate.from(today).subtract({ days: DAYS - 1 });
  const firstHour = new Date((Math.floor(now().getTime() / HOUR_MS) - HOURS) * HOUR_MS);
  const [hours, days] = await Promise.all([
    readThroughput(db, { since: firstHour, span: 'hour', zone: 'UTC' }),
    readThroughput(db, { since: momentOf(zone, firstDay.toString(), '00:00'), span: 'day', zone }),
  ]);
  const byHour = new Map(hours.map((row) => [row.from.getTime(), row]));
  const byDay = new Map(days.map((row) => [dayAt(zone, row.from), row]));
  return {
    zone,
    hours: Array.from({ length: HOURS + 1 }, (_, i) => {
      const from = new Date(firstHour.getTime() + i * HOUR_MS);
      return { from: from.toISOString(), ...countsOf(byHour.get(from.getTime())) };
    }),
    days: Array.from({ length: DAYS }, (_, i) => {
      const day = firstDay.add({ days: i }).toString();
      return { day, ...countsOf(byDay.get(day)) };
    }),
  };
}

const countsOf = (row: ThroughputRow | undefined) => ({
  deliveries: row?.deliveries ?? 0,
  received: row?.received ?? 0,
  stored: row?.stored ?? 0,
  duplicate: row?.duplicate ?? 0,
  refused: row?.refused ?? 0,
});

function dayAt(zone: string, moment: Date): string {
  try {
    return localOf(zone, moment).day;
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const message = 'must be an IANA time zone name, such as Europe/Vienna';
    throw new SlipdriftError('invalid_request', `zone ${message}.`, { errors: [{ field: 'zone', message }] });
  }
}
