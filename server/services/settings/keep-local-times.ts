import { and, eq, isNotNull, sql } from 'drizzle-orm';
import { type Database, rawClient } from '#db/client.ts';
import { vehicles } from '#db/schema/fleet.ts';
import { bookings } from '#db/schema/planning.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteBooking } from '#server/services/bookings/note-booking.ts';
import type { NotedChange } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { listMet, moveToZone } from './move-to-zone.ts';

const REASON = "the depot's time zone was corrected";

interface Zones {
  from: string;
  to: string;
}

/**
 * After the time zone of a depot was put right: what was booked for half past seven there is still booked for half past
 * seven. Who closed a booking, and when, stays as it was. Refused where two bookings would come to be in one bay at once.
 */
export async function keepLocalTimes(
  transaction: Database,
  ctx: Pick<Context, 'now' | 'actor'>,
  depot: { id: string; name: string },
  zones: Zones,
): Promise<NotedChange[]> {
  // Nobody books meanwhile: else what they book could lie where these come to be. Others only read on.
  await transaction.execute(sql`lock table ${bookings} in exclusive mode`);
  const rows = await transaction
    .select({ row: bookings, unit: vehicles.unit })
    .from(bookings)
    .innerJoin(vehicles, eq(vehicles.key, bookings.vehicle))
    .where(and(eq(bookings.depot, depot.id), isNotNull(bookings.startsAt)))
    .orderBy(bookings.id);
  const placed = rows.flatMap(({ row, unit }) => {
    const { id, day, bay } = row;
    const span = moveToZone(row, zones.from, zones.to);
    return span === null || day === null || bay === null ? [] : [{ id, day, bay, unit, row, ...span }];
  });
  const booked = placed.filter(({ row }) => row.state === 'booked');
  refuseMeetings(depot.name, zones.to, booked);
  const moved = placed.filter(({ row, startsAt }) => row.startsAt?.getTime() !== startsAt.getTime());
  if (moved.length === 0) return [];
  await storeMoved(transaction, ctx, depot.id, moved);
  return moved.flatMap(({ id, row, unit, startsAt, endsAt }) => {
    if (row.state !== 'booked') return [];
    const after = { ...row, id, startsAt, endsAt, reason: REASON };
    const noted = noteBooking(
      'booking_moved',
      unit,
      { row, timeZone: zones.from },
      { row: after, timeZone: zones.to },
    );
    return [
      {
        ...noted,
        before: { ...noted.before, starts_at: row.startsAt?.toISOString() },
        after: { ...noted.after, starts_at: startsAt.toISOString() },
      },
    ];
  });
}

function refuseMeetings(name: string, timeZone: string, booked: Parameters<typeof listMet>[0]): void {
  const met = listMet(booked, timeZone);
  if (met.length === 0) return;
  const units = [...new Set(met.map((one) => one.met.unit))];
  throw new SlipdriftError(
    'conflict',
    `In ${timeZone} bookings of ${name} would be in one bay at once: ${units.join(', ')}. Move them apart first, then change the time zone. Nothing was changed.`,
    { errors: met.map((one) => ({ field: 'time_zone', message: `${one.met.unit}: ${one.why}` })) },
  );
}

async function storeMoved(
  transaction: Database,
  { now, actor }: Pick<Context, 'now' | 'actor'>,
  depot: string,
  moved: readonly { id: number; startsAt: Date; endsAt: Date }[],
): Promise<void> {
  const spans = moved.map(({ id, startsAt, endsAt }) => ({ id, starts: startsAt, ends: endsAt }));
  const client = rawClient(transaction);
  // By way of bays that there are not: one row at a time would meet the next one's old place.
  await client`
    update bookings b set bay = -b.bay, starts_at = m.starts, ends_at = m.ends
    from jsonb_to_recordset(${JSON.stringify(spans)}::text::jsonb)
      as m(id bigint, starts timestamptz, ends timestamptz)
    where b.id = m.id`;
  await client`
    update bookings set version = version + 1, changed_at = ${now()}, changed_by = ${actor.name}, reason = ${REASON}
    where depot = ${depot} and bay < 0 and state = 'booked'`;
  await client`update bookings set bay = -bay where depot = ${depot} and bay < 0`;
}
