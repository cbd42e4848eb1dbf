import { inArray } from 'drizzle-orm';
import { vehicles } from '#db/schema/fleet.ts';
import { sayList } from '#server/services/bookings/booking-words.ts';
import { refuse, wrong } from '#server/services/bookings/objection.ts';
import type { Context } from '#server/services/context.ts';
import { isWithin } from '#server/services/fleet/other-depots.ts';

/** Refuses vehicles that are asked for by name and cannot be planned, whatever the depots have free. */
export async function refuseVehicles(
  ctx: Context,
  units: readonly string[],
  depots: readonly string[] | undefined,
): Promise<void> {
  const rows = await ctx.db
    .select({ unit: vehicles.unit, depot: vehicles.depot, retired: vehicles.retired })
    .from(vehicles)
    .where(inArray(vehicles.unit, [...units]));
  const seen = new Map(rows.filter(({ depot }) => isWithin(ctx, depot)).map((row) => [row.unit, row]));
  const unknown = units.filter((unit) => !seen.has(unit));
  if (unknown.length > 0)
    throw refuse({
      code: 'not_found',
      field: 'vehicles',
      message: `No vehicle ${sayList(unknown.map((unit) => `'${unit}'`))} is known.`,
    });
  const retired = units.filter((unit) => seen.get(unit)?.retired);
  if (retired.length > 0)
    throw refuse({
      code: 'conflict',
      field: 'vehicles',
      message: `${sayList(retired)} ${retired.length === 1 ? 'is' : 'are'} retired, so no inspection is planned: leave ${retired.length === 1 ? 'it' : 'them'} out.`,
    });
  if (depots === undefined) return;
  const elsewhere = units.filter((unit) => !depots.includes(seen.get(unit)?.depot ?? ''));
  if (elsewhere.length > 0)
    throw refuse(
      wrong(
        'vehicles',
        `${sayList(elsewhere)} ${elsewhere.length === 1 ? 'belongs' : 'belong'} to none of the depots asked for: leave ${elsewhere.length === 1 ? 'it' : 'them'} out, or ask for more depots.`,
      ),
    );
}
