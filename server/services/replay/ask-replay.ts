import { and, count, eq, inArray, max, min, sql } from 'drizzle-orm';
import { type Sight, seenBy } from '#db/queries/seen-vehicles.ts';
import { depots, platforms, vehicles } from '#db/schema/fleet.ts';
import { readingSpans } from '#db/schema/intake.ts';
import { replays } from '#db/schema/life-data.ts';
import type { ReplayRequest } from '#server/contract/replay.ts';
import { SlipdriftError } from '#server/errors.ts';
import { senderOf } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';
import { readThresholds } from '#server/services/settings/read-thresholds.ts';
import { DAY_MS, dayOf } from './replay-plan.ts';

/** More than this wait for nobody. */
const MOST_WAITING = 50;

/** Notes a replay that is to be run; answers its number. What cannot be run is refused with what would do. */
export async function askReplay(ctx: Context, request: ReplayRequest): Promise<number> {
  refuseDays(ctx, request);
  await refuseNames(ctx, request);
  await refuseEmpty(ctx, request);
  const [waiting] = await ctx.db
    .select({ n: count() })
    .from(replays)
    .where(inArray(replays.state, ['waiting', 'running']));
  if ((waiting?.n ?? 0) >= MOST_WAITING)
    throw new SlipdriftError(
      'busy',
      `${MOST_WAITING} replays wait already, and this one was not noted. Cancel some, or ask again later.`,
      { retryAfterS: 60 },
    );
  const [row] = await ctx.db
    .insert(replays)
    .values({
      askedAt: ctx.now(),
      asker: senderOf(ctx.actor),
      askedBy: ctx.actor.name,
      depots: ctx.actor.depots === null ? null : [...ctx.actor.depots],
      // What is in use may be changed while this one waits, and once it is read.
      request: { ...request, thresholds: request.thresholds ?? (await readThresholds(ctx.db)) },
      state: 'waiting',
    })
    .returning({ id: replays.id });
  if (row === undefined) throw new Error('an inserted row must come back');
  return row.id;
}

const refuse = (field: string, detail: string, message: string) =>
  new SlipdriftError('invalid_request', `${detail} Nothing was run.`, { errors: [{ field, message }] });

function refuseDays({ now }: Pick<Context, 'now'>, { from, to }: ReplayRequest): void {
  const today = dayOf(now().getTime());
  for (const [field, day] of Object.entries({ from, to }))
    if (day > today)
      throw refuse(
        field,
        `'${field}', ${day}, lies in the future. The last day that can be run again is today, ${today}.`,
        `must not be after ${today}`,
      );
}

async function refuseNames({ db, actor }: Context, request: ReplayRequest): Promise<void> {
  const [knownPlatforms, knownDepots] = await Promise.all([
    db.select({ id: platforms.id }).from(platforms),
    db.select({ id: depots.id }).from(depots),
  ]);
  const own = knownDepots.map(({ id }) => id).filter((id) => actor.depots?.includes(id) ?? true);
  const isPlatform = knownPlatforms.map(({ id }) => id);
  const check = (field: string, what: string, names: readonly string[], known: readonly string[]) => {
    const unknown = names.find((name) => !known.includes(name));
    if (unknown === undefined) return;
    const list = known.length === 0 ? 'none is known' : `known are ${known.join(', ')}`;
    throw refuse(field, `No ${what} '${unknown}' is known to you; ${list}.`, `'${unknown}' is not known`);
  };
  check('platforms', 'platform', request.platforms, isPlatform);
  check('depots', 'depot', request.depots, own);
  check('limits_rpm', 'platform', Object.keys(request.limits_rpm), isPlatform);
}

async function refuseEmpty({ db, actor }: Context, request: ReplayRequest): Promise<void> {
  const fromAt = new Date(request.from);
  const toAt = new Date(Date.parse(request.to) + DAY_MS);
  const sight: Sight = { depots: actor.depots, atShopOnly: actor.role === 'shop' };
  const chosen = and(
    seenBy(sight),
    request.platforms.length === 0 ? undefined : inArray(vehicles.platform, request.platforms),
    request.depots.length === 0 ? undefined : inArray(vehicles.depot, request.depots),
  );
  const [some] = await db
    .select({ key: vehicles.key })
    .from(vehicles)
    .where(
      and(
        chosen,
        sql`(exists (select from readings r where r.vehicle = ${vehicles.key} and r.at >= ${fromAt} and r.at < ${toAt})
          or exists (select from stretch_totals t
            where t.vehicle = ${vehicles.key} and t.first_at < ${toAt} and t.last_at >= ${fromAt}))`,
      ),
    )
    .limit(1);
  if (some !== undefined) return;
  const [span] = await db
    .select({ first: min(readingSpans.firstAt), last: max(readingSpans.lastAt) })
    .from(vehicles)
    .innerJoin(readingSpans, eq(readingSpans.vehicle, vehicles.key))
    .where(chosen);
  const none = `No vehicle of these has a reading from ${request.from} to ${request.to}.`;
  if (span?.first == null || span.last === null)
    throw refuse(
      'from',
      `${none} These vehicles have no readings at all; deliver some, or choose others.`,
      'these vehicles have no readings at all',
    );
  const [first, last] = [dayOf(span.first.getTime()), dayOf(span.last.getTime())];
  throw refuse(
    'from',
    `${none} Their readings begin on ${first} and end on ${last}; choose days between.`,
    `no readings in this period: they begin on ${first} and end on ${last}`,
  );
}
