import { eq } from 'drizzle-orm';
import { readStretches } from '#db/queries/read-stretches.ts';
import { platforms, vehicles } from '#db/schema/fleet.ts';
import { readingSpans } from '#db/schema/intake.ts';
import { assessVehicles } from '#server/services/assessment/assess-vehicles.ts';
import { NO_PLATFORM, readContext } from '#server/services/assessment/learn-platform.ts';
import { rankFleet } from '#server/services/assessment/rank-fleet.ts';
import type { Context } from '#server/services/context.ts';
import { readFittedLife } from '#server/services/lives/read-fitted-life.ts';
import { refreshStretches } from '#server/services/stretches/refresh-stretches.ts';

/**
 * Assesses one vehicle as it stands, beside those assessed so far. What is noted of its new readings stays noted: the next
 * run of all does it again. While the demo sends its past, no other run goes on.
 */
export async function assessOne(ctx: Context, unit: string): Promise<void> {
  const [found] = await ctx.db
    .select({ vehicle: vehicles, span: readingSpans, platform: platforms })
    .from(vehicles)
    .innerJoin(readingSpans, eq(readingSpans.vehicle, vehicles.key))
    .leftJoin(platforms, eq(platforms.id, vehicles.platform))
    .where(eq(vehicles.unit, unit));
  if (found === undefined) return;
  const { vehicle, span, platform } = found;
  await refreshStretches(ctx, [{ vehicle: vehicle.key, fromAt: span.firstAt, toAt: span.lastAt }]);
  const stretches = await readStretches(ctx.db, [vehicle.key]);
  const context = await readContext(ctx, platform?.id ?? NO_PLATFORM);
  const fitted = await readFittedLife(ctx.db, vehicle.platform);
  await assessVehicles(ctx, [vehicle.key], platform, context, stretches, fitted);
  await rankFleet(ctx);
}
