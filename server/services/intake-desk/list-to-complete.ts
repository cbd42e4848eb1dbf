import { asc, eq } from 'drizzle-orm';
import { vehicles } from '#db/schema/fleet.ts';
import { readingSpans } from '#db/schema/intake.ts';
import type { ToComplete, ToCompleteQuery } from '#server/contract/intake.ts';
import { judgeVin } from '#server/contract/vin.ts';
import { type VehicleLack, vehicleLacks } from '#server/contract/words.ts';
import type { Context } from '#server/services/context.ts';
import { requireAllDepots } from '#server/services/sight.ts';

/** Vehicles of which something is not known that the list needs, or whose VIN may hold a slip of the pen. */
export async function listToComplete({ db, actor }: Context, query: ToCompleteQuery): Promise<ToComplete> {
  requireAllDepots(actor, 'The list of vehicles to complete');
  const rows = await db
    .select({
      unit: vehicles.unit,
      depot: vehicles.depot,
      platform: vehicles.platform,
      vin: vehicles.vin,
      registered: vehicles.registered,
      firstReadingAt: readingSpans.firstAt,
      lastReadingAt: readingSpans.lastAt,
      odometerKm: readingSpans.odometerKm,
    })
    .from(vehicles)
    .leftJoin(readingSpans, eq(readingSpans.vehicle, vehicles.key))
    .where(eq(vehicles.retired, false))
    .orderBy(asc(vehicles.unit));
  const lacking = rows.flatMap((row) => {
    const warning = row.vin === null || row.vin === '' ? null : judgeVin(row.vin).warning;
    const isLacking: Record<VehicleLack, boolean> = {
      registered: !row.registered,
      depot: row.depot === null,
      platform: row.platform === null,
      vin: warning !== null,
    };
    const lacks = vehicleLacks.filter((lack) => isLacking[lack]);
    return lacks.length === 0 ? [] : [{ ...row, lacks, warning }];
  });
  const text = query.q?.toLowerCase() ?? '';
  const found = lacking.filter(
    ({ unit, lacks }) =>
      (query.lack === undefined || lacks.includes(query.lack)) && unit.toLowerCase().includes(text),
  );
  const countOf = (lack: VehicleLack) => lacking.filter(({ lacks }) => lacks.includes(lack)).length;
  return {
    total: found.length,
    by_lack: {
      registered: countOf('registered'),
      depot: countOf('depot'),
      platform: countOf('platform'),
      vin: countOf('vin'),
    },
    rows: found.slice(query.offset, query.offset + query.limit).map((row) => ({
      vehicle: row.unit,
      lacks: row.lacks,
      depot: row.depot,
      platform: row.platform,
      vin: row.vin,
      vin_warning: row.warning,
      first_reading_at: row.firstReadingAt?.toISOString() ?? null,
      last_reading_at: row.lastReadingAt?.toISOString() ?? null,
      odometer_km: row.odometerKm === null ? null : Math.round(row.odometerKm),
    })),
  };
}
