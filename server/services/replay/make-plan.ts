import { and, asc, eq, inArray } from 'drizzle-orm';
import { seenBy } from '#db/queries/seen-vehicles.ts';
import { platforms, vehicles } from '#db/schema/fleet.ts';
import { readingSpans } from '#db/schema/intake.ts';
import type { ReplayRequest } from '#server/contract/replay.ts';
import type { Context } from '#server/services/context.ts';
import { listDayEnds, type PlatformGroup, type ReplayPlan } from './replay-plan.ts';

/** Whose vehicles are run, and how: `depots` are those that whoever asks may see, null for all. */
export async function makePlan(
  { db }: Pick<Context, 'db'>,
  request: ReplayRequest,
  depots: readonly string[] | null,
): Promise<ReplayPlan> {
  const [rows, all, asked] = await Promise.all([
    db.select().from(platforms),
    listKeys(db, undefined),
    listKeys(
      db,
      and(
        seenBy({ depots, atShopOnly: false }),
        request.platforms.length === 0 ? undefined : inArray(vehicles.platform, request.platforms),
        request.depots.length === 0 ? undefined : inArray(vehicles.depot, request.depots),
      ),
    ),
  ]);
  const chosen = new Set(asked.map(({ key }) => key));
  const groups = new Map<string | null, PlatformGroup>();
  for (const { key, platform } of all) {
    const row = rows.find(({ id }) => id === platform) ?? null;
    const limitRpm = row === null ? undefined : request.limits_rpm[row.id];
    const group = groups.get(platform) ?? {
      platform: row === null || limitRpm === undefined ? row : { ...row, limitRpm },
      members: [],
      asked: [],
    };
    groups.set(platform, group);
    group.members.push(key);
    if (chosen.has(key)) group.asked.push(key);
  }
  return {
    request,
    fromMs: Date.parse(request.from),
    dayEndMs: listDayEnds(request.from, request.to),
    groups: [...groups.values()].filter((group) => group.asked.length > 0),
  };
}

const listKeys = (db: Context['db'], only: ReturnType<typeof and>) =>
  db
    .select({ key: vehicles.key, platform: vehicles.platform })
    .from(vehicles)
    .innerJoin(readingSpans, eq(readingSpans.vehicle, vehicles.key))
    .where(only)
    .orderBy(asc(vehicles.key));

/**
 * Parts of a plan that can be run beside each other, of about the same work. A platform with more than half of all vehicles
 * is run in both: each half learns what all of its vehicles have in common.
 */
export function splitPlan(plan: ReplayPlan): [ReplayPlan, ReplayPlan] {
  const total = plan.groups.reduce((sum, { asked }) => sum + asked.length, 0);
  const inOrder = plan.groups
    .flatMap((group) => (group.asked.length > total / 2 ? halve(group) : [group]))
    .sort((a, b) => b.asked.length - a.asked.length);
  const parts: [PlatformGroup[], PlatformGroup[]] = [[], []];
  const size = (groups: readonly PlatformGroup[]) => groups.reduce((sum, { asked }) => sum + asked.length, 0);
  for (const group of inOrder) (size(parts[0]) <= size(parts[1]) ? parts[0] : parts[1]).push(group);
  return [
    { ...plan, groups: parts[0] },
    { ...plan, groups: parts[1] },
  ];
}

function halve(group: PlatformGroup): PlatformGroup[] {
  const middle = Math.ceil(group.asked.length / 2);
  return [
    { ...group, asked: group.asked.slice(0, middle) },
    { ...group, asked: group.asked.slice(middle) },
  ].filter(({ asked }) => asked.length > 0);
}
