import { readLifeRecords } from '#db/queries/read-life-records.ts';
import type { platforms } from '#db/schema/fleet.ts';
import { lifeFits } from '#db/schema/life-data.ts';
import { fitPlatformLife } from '#server/engine/life/fit-platform-life.ts';
import type { PlatformLife } from '#server/engine/life/platform-life.ts';
import type { Context } from '#server/services/context.ts';
import { type FleetLife, observeLives } from './observe-lives.ts';
import { findLifeFit } from './read-fitted-life.ts';
import { toVehicleRecord } from './to-vehicle-record.ts';

type PlatformRow = typeof platforms.$inferSelect;
type FitRow = typeof lifeFits.$inferInsert;

/** Fits closer together than this are one: nothing has been learned in between. */
const SAME = 1e-9;

/** Lives of the whole fleet as its list reckons with them, by platform; '' for vehicles without one. */
export type FleetLives = ReadonlyMap<string, readonly FleetLife[]>;

export async function readFleetLives({ db }: Pick<Context, 'db'>): Promise<FleetLives> {
  const rows = await readLifeRecords(db, { depots: null, atShopOnly: false });
  const { lives } = observeLives(rows.map(toVehicleRecord), { records: 'first_reading', count: 'failed' });
  return groupByPlatform(lives);
}

export function groupByPlatform(lives: readonly FleetLife[]): FleetLives {
  const groups = new Map<string, FleetLife[]>();
  for (const life of lives) {
    const name = life.platform ?? '';
    const own = groups.get(name);
    if (own === undefined) groups.set(name, [life]);
    else own.push(life);
  }
  return groups;
}

/** Life of a platform's converters from what the whole fleet has lived; null where nothing tells of it. */
export const fitLife = (
  { id, lifeKm }: Pick<PlatformRow, 'id' | 'lifeKm'>,
  fleet: FleetLives,
): PlatformLife | null => fitPlatformLife(fleet.get(id) ?? [], [...fleet.values()], lifeKm);

/** Fits the life of a platform, and stores it where it is another than the newest one. */
export async function learnLife(
  ctx: Pick<Context, 'db' | 'now'>,
  platform: PlatformRow,
  fleet: FleetLives,
): Promise<PlatformLife | null> {
  const found = fitLife(platform, fleet);
  const row = toRow(platform.id, found, ctx.now());
  const newest = await findLifeFit(ctx.db, platform.id);
  if (newest === null ? found === null : isSame(newest, row)) return found;
  await ctx.db
    .insert(lifeFits)
    .values(row)
    .onConflictDoUpdate({ target: [lifeFits.platform, lifeFits.fittedAt], set: row });
  return found;
}

/** A life that is no longer known is stored as one that never ends. */
function toRow(platform: string, life: PlatformLife | null, fittedAt: Date): FitRow {
  const variances = life?.variances ?? null;
  return {
    platform,
    fittedAt,
    basis: life?.basis ?? 'expected',
    lives: life?.lives ?? 0,
    failures: life?.failures ?? 0,
    fleetFailures: life?.fleetFailures ?? 0,
    shape: life?.shape ?? 1,
    scaleKm: life?.scaleKm ?? Number.POSITIVE_INFINITY,
    varLogScale: variances?.logScale ?? null,
    varLogShape: variances?.logShape ?? null,
    covLogs: variances?.covariance ?? null,
  };
}

const isSame = (a: FitRow, b: FitRow): boolean =>
  a.basis === b.basis &&
  a.lives === b.lives &&
  a.failures === b.failures &&
  a.fleetFailures === b.fleetFailures &&
  isNear(a.shape, b.shape) &&
  isNear(a.scaleKm, b.scaleKm);

const isNear = (a: number, b: number): boolean => a === b || Math.abs(a - b) <= SAME * Math.abs(b);
