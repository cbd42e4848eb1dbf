import { asc } from 'drizzle-orm';
import { listLifeFits } from '#db/queries/list-life-fits.ts';
import { platforms } from '#db/schema/fleet.ts';
import type { LifeFit } from '#server/contract/lives.ts';
import type { Context } from '#server/services/context.ts';
import { seesWholeFleet } from '#server/services/sight.ts';
import { toLifeFit } from './say-life-fit.ts';

/** The lives that the inspection list reckons with, of these platforms or all, by name; without those that have none. */
export async function listFits(
  { db, actor }: Pick<Context, 'db' | 'actor'>,
  only: readonly string[] = [],
): Promise<LifeFit[]> {
  const isCounted = seesWholeFleet(actor);
  const [known, fits] = await Promise.all([
    db.select().from(platforms).orderBy(asc(platforms.name), asc(platforms.id)),
    listLifeFits(db),
  ]);
  return known
    .filter(({ id }) => only.length === 0 || only.includes(id))
    .flatMap(({ id, lifeKm }) => {
      const fit = fits.find((one) => one.platform === id);
      return (fit === undefined ? null : toLifeFit(fit, lifeKm, isCounted)) ?? [];
    });
}
