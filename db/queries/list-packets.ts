import { and, count, desc, eq, lt, ne, type SQL, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { depots, platforms, vehicles } from '#db/schema/fleet.ts';
import { packets } from '#db/schema/packets.ts';
import { bookings } from '#db/schema/planning.ts';
import { openBooking } from './open-booking.ts';

const shops = sql.identifier('depots');

/** Packets with what a line of a list shows, open ones first, the newest of each first. */
export async function listPacketRows(db: Database, where: SQL | undefined, limit: number) {
  const rows = await db
    .select({
      packet: packets,
      vehicle: vehicles,
      platform: platforms,
      shopName: sql<string | null>`(select d.name from ${shops} d where d.id = ${packets.depot})`,
      booking: bookings,
      bookingTimeZone: depots.timeZone,
    })
    .from(packets)
    .innerJoin(vehicles, eq(vehicles.key, packets.vehicle))
    .leftJoin(platforms, eq(platforms.id, vehicles.platform))
    .leftJoin(bookings, openBooking)
    .leftJoin(depots, eq(depots.id, bookings.depot))
    .where(where)
    .orderBy(sql`${packets.closedAt} desc nulls first`, desc(packets.id))
    .limit(limit);
  const [total] = await db
    .select({ n: count() })
    .from(packets)
    .innerJoin(vehicles, eq(vehicles.key, packets.vehicle))
    .where(where);
  return { rows, total: total?.n ?? 0 };
}

export type ListedPacketRow = Awaited<ReturnType<typeof listPacketRows>>['rows'][number];

/** Closed jobs on a vehicle before a packet of it, or on the others of its platform, newest first. */
export function listClosedJobs(
  db: Database,
  of: { vehicle: number; before: number } | { platform: string; notVehicle: number },
  limit: number,
) {
  const which =
    'vehicle' in of
      ? and(eq(packets.vehicle, of.vehicle), lt(packets.id, of.before))
      : and(eq(vehicles.platform, of.platform), ne(packets.vehicle, of.notVehicle));
  return db
    .select({ packet: packets, unit: vehicles.unit, depot: vehicles.depot })
    .from(packets)
    .innerJoin(vehicles, eq(vehicles.key, packets.vehicle))
    .where(and(eq(packets.state, 'closed'), which))
    .orderBy(desc(packets.closedAt))
    .limit(limit);
}

export type ClosedJobRow = Awaited<ReturnType<typeof listClosedJobs>>[number];

/** The last converter bought for a vehicle of a platform, as it was reported. */
export async function findLastConverter(db: Database, platform: string) {
  const [row] = await db
    .select({ report: packets.report, closedAt: packets.closedAt })
    .from(packets)
    .innerJoin(vehicles, eq(vehicles.key, packets.vehicle))
    .where(
      and(
        eq(packets.state, 'closed'),
        eq(vehicles.platform, platform),
        sql`jsonb_path_exists(${packets.report}, '$.parts[*] ? (@.kind == "converter" && @.price != null)')`,
      ),
    )
    .orderBy(desc(packets.closedAt))
    .limit(1);
  return row ?? null;
}
