import { and, eq, isNull } from 'drizzle-orm';
import type { z } from 'zod';
import { findOpenPacket } from '#db/queries/find-packet.ts';
import { findAssessment } from '#db/queries/list-assessments.ts';
import { findOpenBooking } from '#db/queries/lock-booking.ts';
import { readTotals } from '#db/queries/read-totals.ts';
import { lockVehicles } from '#db/queries/touch-vehicles.ts';
import { shopVehicles } from '#db/schema/access.ts';
import { depots } from '#db/schema/fleet.ts';
import { packetEvidence, packets } from '#db/schema/packets.ts';
import type { packetRequest } from '#server/contract/packets.ts';
import { reportContent } from '#server/contract/repair.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import { readCodeBook } from '#server/services/codes/code-book.ts';
import type { Context } from '#server/services/context.ts';
import { isWithin } from '#server/services/fleet/other-depots.ts';
import { findVehicle } from '#server/services/vehicles/find-vehicle.ts';
import { seriesOf } from '#server/services/vehicles/get-series.ts';
import { makeFlag } from './make-flag.ts';
import type { StoredFlag } from './stored-packet.ts';

/** Opens a packet for a vehicle, or finds the one that is open; answers its number. */
export function openPacket(ctx: Context, request: z.output<typeof packetRequest>): Promise<number> {
  return ctx.db.transaction(async (transaction) => {
    const inside = { ...ctx, db: transaction };
    const { vehicle } = await findVehicle(inside, request.vehicle);
    await lockVehicles(transaction, [vehicle.key]);
    return openFor(inside, vehicle.unit, request.depot);
  });
}

/** Inside a transaction that has locked the vehicle. */
async function openFor(ctx: Context, unit: string, shop: string | undefined): Promise<number> {
  const record = await findVehicle(ctx, unit);
  const { key, retired } = record.vehicle;
  const open = await findOpenPacket(ctx.db, key);
  if (open !== null) return open;
  if (retired) throw new SlipdriftError('conflict', `Vehicle ${unit} is retired. Nothing was changed.`);
  const depot = await chooseShop(ctx, record.vehicle, shop);
  const now = ctx.now();
  const [assessment, totals, book] = await Promise.all([
    findAssessment(ctx.db, key, now),
    readTotals(ctx.db, key),
    readCodeBook(ctx.db),
  ]);
  const flagged = { record, assessment, totals, book };
  const flag: StoredFlag = {
    metric: makeFlag(flagged, 'metric', now),
    imperial: makeFlag(flagged, 'imperial', now),
  };
  const [row] = await ctx.db
    .insert(packets)
    .values({
      vehicle: key,
      depot,
      state: 'open',
      openedAt: now,
      openedBy: ctx.actor.name,
      flag,
      report: reportContent.parse({}),
    })
    .returning({ id: packets.id });
  if (row === undefined) throw new Error('an insert answers its row');
  if (record.vehicle.lastReadingAt !== null)
    await ctx.db.insert(packetEvidence).values({ packet: row.id, series: await seriesOf(ctx, record) });
  await noteChanges(ctx.db, ctx, [
    {
      action: 'packet_opened',
      subject: 'packet',
      subjectId: String(row.id),
      after: { vehicle: unit, depot, grade: flag.metric.grade },
    },
  ]);
  return row.id;
}

/** Where the vehicle was sent, is booked or belongs, in this order, unless a depot is named. */
async function chooseShop(
  ctx: Context,
  vehicle: { key: number; depot: string | null },
  named: string | undefined,
): Promise<string | null> {
  if (named !== undefined) {
    const [known] = await ctx.db.select().from(depots).where(eq(depots.id, named));
    if (known === undefined || !isWithin(ctx, named))
      throw new SlipdriftError(
        known === undefined ? 'invalid_request' : 'not_allowed',
        known === undefined
          ? `No depot '${named}' is known. Nothing was changed.`
          : `You do not work for ${known.name}. Nothing was changed.`,
        { errors: [{ field: 'depot', message: `'${named}' cannot be had` }] },
      );
    return named;
  }
  const [sent] = await ctx.db
    .select({ depot: shopVehicles.depot })
    .from(shopVehicles)
    .where(and(eq(shopVehicles.vehicle, vehicle.key), isNull(shopVehicles.endedAt)));
  if (sent !== undefined) return sent.depot;
  const booking = await findOpenBooking(ctx.db, vehicle.key);
  return booking?.row.depot ?? vehicle.depot;
}
