import type { Exposure, LifeGrouping } from '#server/contract/lives.ts';
import { exposures, MOST_LIFE_GROUPS } from '#server/contract/lives.ts';
import { SlipdriftError } from '#server/errors.ts';
import { nothingKnown, type Used } from './compare-use.ts';
import type { FleetLife, LeftOut } from './observe-lives.ts';
import { splitThirds, type Third } from './split-thirds.ts';

/** A life with how it was used and the group that it belongs to. */
export interface GroupedLife {
  life: FleetLife;
  used: Used;
  group: string | undefined;
}

export interface Grouped {
  lives: GroupedLife[];
  thirds: Third[] | null;
  leftOut: LeftOut[];
}

export const isExposure = (grouping: LifeGrouping | undefined): grouping is Exposure =>
  exposures.some((one) => one === grouping);

export const exposureWords: Record<Exposure, string> = {
  fluid_c: 'fluid temperature',
  hot_pct: 'time with hot fluid',
  load_pct: 'load',
  partial_lockup_pct: 'time in partial lockup',
  heat_mj_per_1000km: 'clutch heat',
};

const none = { platform: 'no platform', depot: 'no depot', supplier: 'supplier not named' } as const;

/** Gives each life its group, in the order of the groups' names. By mode lives stay in one group: see `analyseByMode`. */
export function groupLives(
  lives: readonly FleetLife[],
  used: readonly Used[],
  by: LifeGrouping | undefined,
): Grouped {
  const pairs = lives.map((life, i) => ({ life, used: used[i] ?? nothingKnown }));
  if (by === undefined || by === 'mode')
    return { lives: pairs.map((pair) => ({ ...pair, group: undefined })), thirds: null, leftOut: [] };
  if (isExposure(by)) return groupByThirds(pairs, by);
  const grouped = pairs.map((pair) => ({ ...pair, group: nameGroup(pair.life, by) }));
  refuseMany(new Set(grouped.map(({ group }) => group)).size, by);
  const isNone = (group: string) => Object.values(none).some((name) => name === group);
  grouped.sort(
    (a, b) => Number(isNone(a.group)) - Number(isNone(b.group)) || a.group.localeCompare(b.group, 'en'),
  );
  return { lives: grouped, thirds: null, leftOut: [] };
}

function refuseMany(groups: number, by: LifeGrouping): void {
  if (groups <= MOST_LIFE_GROUPS) return;
  throw new SlipdriftError(
    'invalid_request',
    `The lives have ${groups} groups by ${by}, and at most ${MOST_LIFE_GROUPS} can be compared. Choose some platforms, depots or sources, or group by something else.`,
    { errors: [{ field: 'group_by', message: `makes ${groups} groups, over ${MOST_LIFE_GROUPS}` }] },
  );
}

function nameGroup(life: FleetLife, by: 'platform' | 'depot' | 'source' | 'supplier'): string {
  if (by === 'source') return life.source;
  return life[by] ?? none[by];
}

function groupByThirds(pairs: readonly Omit<GroupedLife, 'group'>[], by: Exposure): Grouped {
  const { names, thirds } = splitThirds(pairs.map(({ used }) => used[by]));
  const lives = thirds.flatMap(({ name }) =>
    pairs.filter((_, i) => names[i] === name).map((pair) => ({ ...pair, group: name })),
  );
  const lacking = pairs.length - lives.length;
  const reason = `Nothing tells of ${exposureWords[by]} in it, or no other vehicle of its platform was seen in the same weeks`;
  return { lives, thirds, leftOut: lacking === 0 ? [] : [{ reason, lives: lacking }] };
}
