import { and, eq, isNotNull } from 'drizzle-orm';
import { type Database, rawClient } from '#db/client.ts';
import { bookings } from '#db/schema/planning.ts';
import { localOf, momentOf } from '#server/services/calendar/local-time.ts';
import type { Context } from '#server/services/context.ts';

type Booked = Pick<typeof bookings.$inferSelect, 'day' | 'startsAt' | 'endsAt'>;

/** When a booking is that keeps its day and its time of day in another zone; null where it has none. */
export function moveToZone({ day, startsAt, endsAt }: Booked, from: string, to: string) {
  if (day === null || startsAt === null || endsAt === null) return null;
  const starts = momentOf(to, day, localOf(from, startsAt).clock);
  return { startsAt: starts, endsAt: new Date(starts.getTime() + endsAt.getTime() - startsAt.getTime()) };
}

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
    .where(and(eq(bookings.depot, depot), isNotNull(bookings.startsAt)))
    .for('update');
  const moved = rows.flatMap(({ id, ...booked }) => {
    const span = moveToZone(booked, from, to);
    return span === null ? [] : [{ id, starts: span.startsAt, ends: span.endsAt }];
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
