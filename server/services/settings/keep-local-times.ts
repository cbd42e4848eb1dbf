import { and, eq, isNotNull } from 'drizzle-orm';
import { type Database, rawClient } from '#db/client.ts';
import { bookings } from '#db/schema/planning.ts';
import { localOf, momentOf } from '#server/services/calendar/local-time.ts';
import type { Context } from '#server/services/context.ts';

/**
 * After the time zone of a depot was put right: what was booked for half past seven there is still booked for half past
 * seven.
 */
export async function keepLocalTimes(
  transaction: Database,
  { now, actor }: Pick<Context, 'now' | 'actor'>,
  depot: string,
  from: string,
  to: string,
): Promise<void> {
  const rows = await transaction
    .select({ id: bookings.id, day: bookings.day, startsAt: bookings.startsAt, endsAt: bookings.endsAt })
    .from(bookings)
    .where(and(eq(bookings.depot, depot), isNotNull(bookings.startsAt)));
  const moved = rows.flatMap(({ id, day, startsAt, endsAt }) => {
    if (day === null || startsAt === null || endsAt === null) return [];
    const starts = momentOf(to, day, localOf(from, startsAt).clock);
    const ends = new Date(starts.getTime() + endsAt.getTime() - startsAt.getTime());
    return [{ id, starts, ends }];
  });
  if (moved.length === 0) return;
  // By way of bays that there are not: one row at a time would meet the next one's old place.
  const client = rawClient(transaction);
  await client`
    update bookings b set bay = -b.bay, starts_at = m.starts, ends_at = m.ends, version = b.version + 1,
      changed_at = ${now()}, changed_by = ${actor.name}
    from jsonb_to_recordset(${JSON.stringify(moved)}::text::jsonb)
      as m(id bigint, starts timestamptz, ends timestamptz)
    where b.id = m.id`;
  await client`update bookings set bay = -bay where depot = ${depot} and bay < 0`;
}
