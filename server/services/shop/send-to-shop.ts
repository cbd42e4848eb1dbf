import { and, asc, eq, isNull } from 'drizzle-orm';
import type { z } from 'zod';
import type { Database } from '#db/client.ts';
import { shopVehicles } from '#db/schema/access.ts';
import { depots } from '#db/schema/fleet.ts';
import type { AtShop, shopRequest } from '#server/contract/vehicle.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { inSetUp } from '#server/services/fleet/set-up.ts';
import { findVehicle } from '#server/services/vehicles/find-vehicle.ts';

/** Lets the people of a depot's shop see a vehicle, until it is called back or sent elsewhere. */
export async function sendToShop(
  ctx: Context,
  unit: string,
  { depot, note }: z.output<typeof shopRequest>,
): Promise<AtShop> {
  return inSetUp(ctx.db, async (transaction) => {
    const { vehicle } = await findVehicle({ ...ctx, db: transaction }, unit);
    if (vehicle.retired)
      throw new SlipdriftError('conflict', `Vehicle ${unit} is retired. Nothing was changed.`);
    const [known] = await transaction.select().from(depots).where(eq(depots.id, depot));
    if (known === undefined)
      throw new SlipdriftError('invalid_request', `No depot '${depot}' is known. Nothing was changed.`, {
        errors: [{ field: 'depot', message: `'${depot}' is not known` }],
      });
    await end(ctx, transaction, vehicle.key);
    const sentAt = ctx.now();
    const sentBy = ctx.actor.name;
    const kept = note === '' ? null : note;
    await transaction
      .insert(shopVehicles)
      .values({ vehicle: vehicle.key, depot, sentAt, sentBy, note: kept });
    await noteChanges(transaction, ctx, [
      {
        action: 'sent_to_shop',
        subject: 'vehicle',
        subjectId: unit,
        after: { depot, note: kept },
      },
    ]);
    return { depot, depot_name: known.name, sent_at: sentAt.toISOString(), sent_by: sentBy, note: kept };
  });
}

export async function callBack(ctx: Context, unit: string): Promise<void> {
  await inSetUp(ctx.db, async (transaction) => {
    const { vehicle } = await findVehicle({ ...ctx, db: transaction }, unit);
    const ended = await end(ctx, transaction, vehicle.key);
    if (ended === null) throw new SlipdriftError('not_found', `Vehicle ${unit} is at no shop.`);
    await noteChanges(transaction, ctx, [
      {
        action: 'called_back',
        subject: 'vehicle',
        subjectId: unit,
        before: { depot: ended.depot, note: ended.note },
      },
    ]);
  });
}

/** Where a vehicle stands now; null where no shop has it. */
export async function findAtShop({ db }: Context, vehicle: number): Promise<AtShop | null> {
  const [found] = await db
    .select({ sent: shopVehicles, name: depots.name })
    .from(shopVehicles)
    .innerJoin(depots, eq(depots.id, shopVehicles.depot))
    .where(and(eq(shopVehicles.vehicle, vehicle), isNull(shopVehicles.endedAt)));
  if (found === undefined) return null;
  const { depot, sentAt, sentBy, note } = found.sent;
  return { depot, depot_name: found.name, sent_at: sentAt.toISOString(), sent_by: sentBy, note };
}

/** When a vehicle was at which shop, the first time first. */
export const listSendings = ({ db }: Context, vehicle: number) =>
  db
    .select({
      depot: depots.name,
      sentAt: shopVehicles.sentAt,
      sentBy: shopVehicles.sentBy,
      note: shopVehicles.note,
      endedAt: shopVehicles.endedAt,
      endedBy: shopVehicles.endedBy,
    })
    .from(shopVehicles)
    .innerJoin(depots, eq(depots.id, shopVehicles.depot))
    .where(eq(shopVehicles.vehicle, vehicle))
    .orderBy(asc(shopVehicles.sentAt));

async function end(ctx: Context, transaction: Database, vehicle: number) {
  const [ended] = await transaction
    .update(shopVehicles)
    .set({ endedAt: ctx.now(), endedBy: ctx.actor.name })
    .where(and(eq(shopVehicles.vehicle, vehicle), isNull(shopVehicles.endedAt)))
    .returning();
  return ended ?? null;
}
