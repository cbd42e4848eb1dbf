import type { Context } from '#server/services/context.ts';
import { compareUse, nameLife, nothingKnown, type Used } from './compare-use.ts';
import { takeLifeWeeks } from './life-weeks.ts';
import type { Period } from './limit-to-period.ts';
import type { FleetLife, VehicleRecord } from './observe-lives.ts';
import { weeksWithin } from './weeks-within.ts';

/**
 * Exposures of lives within a period, in their order: use that came after it must not tell on failures within it. They are
 * compared with all vehicles of their platforms that the asker may see, whatever else was chosen: an exposure must not change
 * with another filter.
 */
export async function measureExposures(
  ctx: Context,
  lives: readonly FleetLife[],
  seen: readonly VehicleRecord[],
  period: Period,
): Promise<Used[]> {
  const platforms = new Set(lives.map(({ platform }) => platform));
  const vehicles = seen.filter(({ platform }) => platforms.has(platform)).map(({ vehicle }) => vehicle);
  const used = compareUse(await takeLifeWeeks(ctx, vehicles), weeksWithin(period));
  return lives.map((life) => used.get(nameLife(life)) ?? nothingKnown);
}
