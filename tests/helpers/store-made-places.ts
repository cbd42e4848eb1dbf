import { depots, platforms } from '#db/schema/fleet.ts';
import { usualWeek } from '#server/contract/calendar.ts';
import { platformInput } from '#server/contract/fleet.ts';
import type { Context } from '#server/services/context.ts';

export const MADE_TIME_ZONE = 'Europe/London';
const costs = [
  { road_failure: 9_000, planned_repair: 3_200, inspection: 120, lost_day: 60 },
  { road_failure: 14_500, planned_repair: 4_100, inspection: 150, lost_day: 240 },
  { road_failure: 6_200, planned_repair: 2_600, inspection: 90, lost_day: 30 },
];

/** Ten depots, and three platforms that differ in their costs alone. */
export async function storeMadePlaces(ctx: Context): Promise<void> {
  await ctx.db.insert(depots).values(
    Array.from({ length: 10 }, (_, i) => ({
      id: `depot-${i}`,
      name: `Depot ${i}`,
      bays: 2 + (i % 4),
      timeZone: MADE_TIME_ZONE,
      week: usualWeek,
    })),
  );
  await ctx.db.insert(platforms).values(
    costs.map((own, i) => {
      const input = platformInput.parse({ id: `platform-${i}`, name: `Platform ${i}` });
      return {
        id: input.id,
        name: input.name,
        limitRpm: input.limit_rpm,
        bandEdgesPct: input.band_edges_pct,
        reference: input.reference,
        gate: input.gate,
        costs: own,
      };
    }),
  );
}
