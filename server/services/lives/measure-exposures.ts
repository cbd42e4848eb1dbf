import type { Context } from '#server/services/context.ts';
import { compareUse, nameLife, nothingKnown, type Used } from './compare-use.ts';
import { takeLifeWeeks } from './life-weeks.ts';
import type { FleetLife, VehicleRecord } from './observe-lives.ts';

/**
 * Exposures of lives, in their order. They are compared with all vehicles of their platforms that the asker may see, whatever
 * else was chosen: an exposure must not change with a filter.
 */
export async function measureExposures(
  ctx: Context,
  lives: readonly FleetLife[],
  seen: readonly VehicleRecord[],
): Promise<Used[]> {
  const platforms = new Set(lives.map(({ platform }) => platform));
  const vehicles = seen.filter(({ platform }) => platforms.has(platform)).map(({ vehicle }) => vehicle);
  const used = compareUse(await takeLifeWeeks(ctx, vehicles));
  return lives.map((life) => used.get(nameLife(life)) ?? nothingKnown);
}
