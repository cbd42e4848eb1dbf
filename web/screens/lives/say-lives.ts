import type { Bounded, FleetLivesReply, LifeGrouping, LivesGroup } from '#server/contract/lives.ts';
import { lastSeen } from '#web/charts/survival-steps.ts';
import type { UseAxis } from '#web/charts/use-axis.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { sayChance } from '#web/format/say-chance.ts';
import { sayShape } from '#web/format/say-shape.ts';
import { isExposure } from './name-groups.ts';

/** Differences that chance alone would show more often than this are not told as such. */
export const tellingP = 0.05;

export const countWord = (n: number, one: string, many: string): string =>
  n === 1 ? `1 ${one}` : `${formatWhole(n)} ${many}`;

/** What stands out, in a sentence or two; or that nothing can be told apart. */
export function sayLives(reply: FleetLivesReply, groups: readonly LivesGroup[], axis: UseAxis): string {
  if (reply.events === 0) return sayNoFailure(reply, groups, axis);
  const { grouped_by: by, logrank } = reply;
  const first = groups[0];
  if (by === null || groups.length < 2 || first === undefined)
    return first === undefined ? '' : sayOne(first, by, axis);
  if (by === 'mode') return sayMostFrequent(groups);
  if (logrank === null)
    return `${countWord(reply.events, 'converter', 'converters')} of ${formatWhole(reply.n)} failed.`;
  if (logrank.p >= tellingP)
    return `Nothing tells the groups apart: chance alone would show such differences ${sayChance(logrank.p)}.`;
  return `${sayOutlier(reply, groups, axis)} Chance alone would show such a difference ${sayChance(logrank.p)}.`;
}

function sayNoFailure({ n }: FleetLivesReply, groups: readonly LivesGroup[], axis: UseAxis): string {
  const ran = axis.sayEstimate(groups.reduce((sum, group) => sum + group.exposed, 0));
  return n === 1
    ? `The one converter under watch has not failed in ${ran}.`
    : `None of ${formatWhole(n)} converters under watch has failed; together they have run ${ran}.`;
}

function sayOne(group: LivesGroup, by: LifeGrouping | null, axis: UseAxis): string {
  const who = by === null ? '' : ` of ${group.name}`;
  const { weibull } = group;
  if (weibull === null) {
    const why = group.events < 2 ? 'too few to tell' : 'it cannot be told';
    return `${countWord(group.events, 'converter', 'converters')}${who} failed of ${formatWhole(group.n)}: ${why} by when a tenth fail.`;
  }
  const { b10, b50 } = weibull;
  const how = sayHow({ low: weibull.shape_low, high: weibull.shape_high });
  if (b10.estimate > lastSeen(group))
    return `A tenth of the converters${who} would fail by ${sayBounds(b10, axis)}, beyond what has been seen${how}`;
  const half =
    b50.estimate > lastSeen(group)
      ? 'half beyond what has been seen'
      : `half by ${axis.sayEstimate(b50.estimate)}`;
  return `A tenth of the converters${who} fail by ${sayBounds(b10, axis)}, ${half}${how}`;
}

/** How they fail, as the end of the sentence, or as one more where the interval leaves it open. */
const sayHow = (shape: { low: number; high: number }): string =>
  shape.low <= 1 && shape.high >= 1
    ? '. They fail by chance, or too few have failed to tell.'
    : `: ${sayShape(shape)}.`;

/** The group that departs most from what it would show if all were alike. */
function sayOutlier(reply: FleetLivesReply, groups: readonly LivesGroup[], axis: UseAxis): string {
  const places = (reply.logrank?.groups ?? []).map(({ observed, expected }, i) => ({
    i,
    observed,
    expected,
    apart: expected > 0 ? (observed - expected) ** 2 / expected : 0,
  }));
  const most = places.toSorted((a, b) => b.apart - a.apart)[0];
  const group = most === undefined ? undefined : groups[most.i];
  if (most === undefined || group === undefined) return 'The groups differ.';
  const subject = sayGroup(group.name, reply.grouped_by);
  const others = groups.filter((one) => one !== group);
  const known = others.flatMap((one) => tenthOf(one) ?? []);
  if (group.weibull === null || tenthOf(group) === null || known.length === 0)
    return `${subject} failed ${countWord(Math.round(most.observed), 'time', 'times')} where ${Math.max(0.1, most.expected).toFixed(1)} would be expected if all were alike.`;
  if (isBetween(group.weibull.b10.estimate, known)) return sayEnds(groups, axis);
  return `A tenth of ${lower(subject)} fail by ${sayBounds(group.weibull.b10, axis)}, ${sayOthers(known, others, axis)}.`;
}

/** Bounds farther apart than this tell nothing of when. */
const widestBounds = 100;

/** By when a tenth fail, where that much was seen of the group and its bounds tell something. */
function tenthOf(group: LivesGroup): number | null {
  const { estimate, low, high } = group.weibull?.b10 ?? {
    estimate: Number.POSITIVE_INFINITY,
    low: 1,
    high: 1,
  };
  return estimate > lastSeen(group) || high > widestBounds * low ? null : estimate;
}

function sayMostFrequent(groups: readonly LivesGroup[]): string {
  const most = groups.toSorted((a, b) => b.events - a.events)[0];
  const all = groups.reduce((sum, { events }) => sum + events, 0);
  return most === undefined
    ? ''
    : `Most often it was: ${most.name}, in ${formatWhole(most.events)} of ${countWord(all, 'failure', 'failures')}.`;
}

const isBetween = (value: number, all: readonly number[]): boolean =>
  value > Math.min(...all) && value < Math.max(...all);

/** Several stand out: the one that fails first and the one that lasts longest. */
function sayEnds(groups: readonly LivesGroup[], axis: UseAxis): string {
  const inOrder = groups
    .flatMap((group) => {
      const x = tenthOf(group);
      return x === null ? [] : [{ name: group.name, x }];
    })
    .toSorted((a, b) => a.x - b.x);
  const [first, last] = [inOrder[0], inOrder.at(-1)];
  if (first === undefined || last === undefined) return 'The groups differ.';
  return `A tenth of the converters of ${first.name} fail by ${axis.sayEstimate(first.x)}, of those of ${last.name} by ${axis.sayEstimate(last.x)}.`;
}

function sayOthers(known: readonly number[], others: readonly LivesGroup[], axis: UseAxis): string {
  const range = axis.sayRange(Math.min(...known), Math.max(...known));
  const who = others.length === 1 ? (others[0]?.name ?? 'the other') : 'of the others';
  return `${who} by ${range}`;
}

/** 'Units of Brantorly Exchange', 'Rebuilt units' */
function sayGroup(name: string, by: LifeGrouping | null): string {
  if (by !== null && name.endsWith('not named')) return `Units whose ${name.replace(' not', ' is not')}`;
  if (by === 'source') return `${name.charAt(0).toUpperCase()}${name.slice(1)} units`;
  if (by === 'supplier') return `Units of ${name}`;
  if (by !== null && isExposure(by)) return `Converters in the ${name}`;
  return by === 'mode' ? `Failures of ${name}` : `Converters of ${name}`;
}

const lower = (text: string): string => `${text.charAt(0).toLowerCase()}${text.slice(1)}`;

const sayBounds = ({ estimate, low, high }: Bounded, axis: UseAxis): string =>
  `${axis.sayEstimate(estimate)} (${axis.sayRange(low, high)})`;

/** How much was seen, for below the sentence. */
export function sayWatched(reply: FleetLivesReply, axis: UseAxis): string {
  const { n, events, grouped_by: by } = reply;
  // Each mode is looked at in all lives.
  const groups = by === 'mode' ? reply.groups.slice(0, 1) : reply.groups;
  const exposed = groups.reduce((sum, group) => sum + group.exposed, 0);
  const late = groups.reduce((sum, group) => sum + group.late_entries, 0);
  const entered =
    late === 0
      ? ''
      : ` ${countWord(late, 'was', 'were')} first seen with mileage on ${late === 1 ? 'it' : 'them'}.`;
  return `${countWord(n, 'converter', 'converters')}, ${formatWhole(events)} failed, watched for ${axis.sayEstimate(exposed)} in all.${entered}`;
}

/** Who looks at many groupings will find one that differs. */
export function sayCaution(reply: FleetLivesReply): string | null {
  if (reply.grouped_by === null || reply.logrank === null) return null;
  return reply.logrank.p < tellingP
    ? 'Of twenty groupings that make no difference, one looks like this by chance. Groups may also differ in platform, depot or use: compare within one platform before acting.'
    : 'That nothing stands out does not show the groups to be alike: there may be too few failures to tell.';
}
