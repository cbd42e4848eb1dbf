import { asc } from 'drizzle-orm';
import { readLifeRecords } from '#db/queries/read-life-records.ts';
import { readLifeTracks } from '#db/queries/read-life-tracks.ts';
import { depots, platforms } from '#db/schema/fleet.ts';
import type { FleetLivesQuery } from '#server/contract/lives.ts';
import { STRETCH_KM } from '#server/engine/stretches/build-stretches.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';
import { isWithin } from '#server/services/fleet/other-depots.ts';
import { sightOf } from '#server/services/sight.ts';
import { limitToPeriod, type Period } from './limit-to-period.ts';
import { type FleetLife, observeLives } from './observe-lives.ts';
import type { TrackPoint } from './place-on-track.ts';
import { toVehicleRecord } from './to-vehicle-record.ts';
import type { LeftOut, VehicleRecord } from './vehicle-record.ts';

const DAY_MS = 86_400_000;

export interface ChosenLives {
  lives: FleetLife[];
  leftOut: LeftOut[];
  period: Period;
  /** the vehicles of these lives, within the period */
  watched: readonly VehicleRecord[];
  /** all vehicles that the asker may see, whatever was chosen */
  records: VehicleRecord[];
  firstReadingAt: Date | null;
  lastReadingAt: Date | null;
  platforms: (typeof platforms.$inferSelect)[];
  /** those that the asker may see */
  depots: { id: string; name: string }[];
}

/** The lives that a query asks for, as far as they were watched. */
export async function chooseLives(ctx: Context, query: FleetLivesQuery): Promise<ChosenLives> {
  const [known, places] = await Promise.all([
    ctx.db.select().from(platforms).orderBy(asc(platforms.name), asc(platforms.id)),
    ctx.db
      .select({ id: depots.id, name: depots.name })
      .from(depots)
      .orderBy(asc(depots.name), asc(depots.id)),
  ]);
  const own = places.filter(({ id }) => isWithin(ctx, id));
  refuseUnknown(query, known, places, own);
  const rows = await readLifeRecords(ctx.db, sightOf(ctx.actor));
  const records = rows.map(toVehicleRecord);
  const isChosen = (ids: readonly string[] | undefined, id: string | null) =>
    ids === undefined || ids.length === 0 || (id !== null && ids.includes(id));
  const chosen = records.filter(
    ({ platform, depot }) => isChosen(query.platform, platform) && isChosen(query.depot, depot),
  );
  const period = toPeriod(query);
  const limited = await limit(ctx, query, period, chosen);
  const hasStart = query.from !== undefined;
  const { lives, leftOut } = observeLives(limited.records, {
    records: hasStart ? 'first_reading' : query.records,
    count: query.count,
    unknownRun:
      query.group_by === 'source' || query.source?.includes('used') === true ? 'from_fitting' : 'leave_out',
    sources: query.source,
  });
  return {
    lives,
    leftOut: [...limited.leftOut, ...leftOut],
    period,
    watched: limited.records,
    records,
    firstReadingAt: furthest(
      rows.map(({ firstReadingAt }) => firstReadingAt),
      (a, b) => a < b,
    ),
    lastReadingAt: furthest(
      rows.map(({ lastReadingAt }) => lastReadingAt),
      (a, b) => a > b,
    ),
    platforms: known,
    depots: own,
  };
}

const furthest = (dates: readonly (Date | null)[], isFurther: (a: Date, b: Date) => boolean): Date | null =>
  dates.reduce((best, one) => (one !== null && (best === null || isFurther(one, best)) ? one : best), null);

const toPeriod = ({ from, to }: FleetLivesQuery): Period => ({
  fromMs: from === undefined ? null : Date.parse(from),
  toMs: to === undefined ? null : Date.parse(to) + DAY_MS,
});

async function limit(
  ctx: Context,
  { source, records: recorded }: FleetLivesQuery,
  { fromMs, toMs }: Period,
  records: readonly VehicleRecord[],
): Promise<{ records: readonly VehicleRecord[]; leftOut: LeftOut[] }> {
  if (fromMs === null && toMs === null) return { records, leftOut: [] };
  const moments = [fromMs, toMs].filter((ms) => ms !== null).map((ms) => new Date(ms));
  const points = await readLifeTracks(
    ctx.db,
    records.map(({ vehicle }) => vehicle),
    moments,
    STRETCH_KM,
  );
  const tracks = new Map<number, TrackPoint[]>();
  for (const { vehicle, ms, km } of points) tracks.set(vehicle, [...(tracks.get(vehicle) ?? []), { ms, km }]);
  return limitToPeriod(records, { fromMs, toMs }, tracks, recorded, source);
}

type Named = readonly { id: string }[];

function refuseUnknown(
  { platform, depot, from, to }: FleetLivesQuery,
  platformsKnown: Named,
  depotsKnown: readonly { id: string; name: string }[],
  own: Named,
): void {
  const missing = (ids: readonly string[] | undefined, known: Named) =>
    ids?.find((id) => !known.some((one) => one.id === id));
  const wrong = (field: string, detail: string, message: string) =>
    new SlipdriftError('invalid_request', detail, { errors: [{ field, message }] });
  const noPlatform = missing(platform, platformsKnown);
  if (noPlatform !== undefined)
    throw wrong('platform', `No platform '${noPlatform}' is known. Leave it out for all.`, 'is not known');
  const noDepot = missing(depot, depotsKnown);
  if (noDepot !== undefined)
    throw wrong('depot', `No depot '${noDepot}' is known. Leave it out for all.`, 'is not known');
  const foreign = missing(depot, own);
  if (foreign !== undefined)
    throw new SlipdriftError(
      'not_allowed',
      `You do not work for ${depotsKnown.find(({ id }) => id === foreign)?.name ?? foreign}, so you cannot see its lives.`,
      { errors: [{ field: 'depot', message: 'is not one that you work for' }] },
    );
  if (from !== undefined && to !== undefined && to < from)
    throw wrong('to', `The period ends on ${to}, before it begins on ${from}.`, 'must not be before from');
}
