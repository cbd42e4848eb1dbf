import type { ReplayRequest, ReplayResult, RuleScore } from '#server/contract/replay.ts';
import type { Thresholds } from '#server/contract/settings.ts';
import type { FleetNames } from '#web/api/use-fleet-names.ts';
import { formatDaySpan } from '#web/format/format-day.ts';
import { formatKm } from '#web/format/format-km.ts';
import { formatMoney } from '#web/format/format-money.ts';
import { formatTenths, formatWhole } from '#web/format/format-number.ts';
import { toDraft as inPercent } from '#web/format/thresholds-draft.ts';
import type { Units } from '#web/format/units.ts';

const count = (n: number, one: string, many: string): string => `${formatWhole(n)} ${n === 1 ? one : many}`;

/** What the list would have done, in a sentence. */
export function sayReplay({ failures, scores }: ReplayResult, units: Units): string {
  const list = scores.find(({ rule }) => rule === 'list');
  if (list === undefined) return 'This replay has no figures.';
  const asked = `The list would have asked for ${count(list.asked, 'inspection', 'inspections')}`;
  const early = list.early === 0 ? '' : `${formatWhole(list.early)} early, `;
  const needless = `${early}${list.needless === 0 ? 'none' : formatWhole(list.needless)} needless`;
  if (failures === 0)
    return `Nothing came in this period, so nothing could be found or missed. ${asked}, ${list.asked === 0 ? 'so none was needless' : needless}.`;
  const found =
    list.found === failures
      ? `found ${failures === 1 ? 'the one failure' : `all ${formatWhole(failures)} failures`}`
      : `found ${formatWhole(list.found)} of ${count(failures, 'failure', 'failures')}`;
  const notice =
    list.notice_km === null
      ? ''
      : `, ${formatKm(list.notice_km.p50, units)} before ${list.found === 1 ? 'it' : 'they'} came${list.found > 1 ? ' (middle)' : ''}`;
  return `${asked} and ${found}${notice}, ${needless}; ${saySaved(list.saved)}.`;
}

const saySaved = (saved: number): string =>
  saved < 0
    ? `it would have cost about ${formatMoney(-saved)} more than it saved`
    : `about ${formatMoney(saved)} saved`;

/** Against the best of the plain rules, in a sentence; null where nothing came. */
export function sayAgainst({ failures, scores }: ReplayResult): string | null {
  const list = scores.find(({ rule }) => rule === 'list');
  const best = scores
    .filter(({ rule }) => rule !== 'list')
    .toSorted((a, b) => b.found - a.found || b.saved - a.saved)[0];
  if (failures === 0 || list === undefined || best === undefined) return null;
  const asking = best.matched ? ', asking as often' : `, asking ${count(best.asked, 'time', 'times')}`;
  const name = best.rule === 'slip_level' ? 'A fixed level of slip' : 'A weekly rise of slip';
  const difference = list.found - best.found;
  const verdict =
    difference > 0
      ? `${formatWhole(difference)} fewer`
      : difference < 0
        ? `${formatWhole(-difference)} more`
        : 'as many';
  return `${name}, the better of the plain rules${asking}, would have found ${formatWhole(best.found)}: ${verdict}.`;
}

/** Which vehicles in which days. */
export function sayScope(request: ReplayRequest, names: FleetNames): string {
  const { from, to, platforms, depots } = request;
  const of = [
    platforms.length === 0 ? 'all platforms' : platforms.map(names.platform).join(', '),
    depots.length === 0 ? 'all depots' : depots.map(names.depot).join(', '),
  ];
  return `${formatDaySpan(from, to)}, ${of.join(', ')}`;
}

export interface Difference {
  what: string;
  tried: string;
  now: string;
}

/** Settings that a replay tried, where they are others than those in use. */
export function listDifferences(
  { thresholds, limits_rpm }: ReplayRequest,
  present: { thresholds: Thresholds; limitOf: (platform: string) => number | null },
  names: FleetNames,
): Difference[] {
  const [tried, now] = [inPercent(thresholds ?? present.thresholds), inPercent(present.thresholds)];
  const shares = [
    ['hold_chance', 'hold from a chance of'],
    ['book_chance', 'book from a chance of'],
    ['evidence_q', 'false alarms at most'],
  ] as const;
  const found: Difference[] = shares
    .filter(([field]) => tried[field] !== now[field])
    .map(([field, what]) => ({ what, tried: `${tried[field]} %`, now: `${now[field]} %` }));
  if (tried.quiet_days !== now.quiet_days)
    found.push({ what: 'unknown after', tried: `${tried.quiet_days} days`, now: `${now.quiet_days} days` });
  for (const [platform, rpm] of Object.entries(limits_rpm)) {
    const limit = present.limitOf(platform);
    if (limit !== rpm)
      found.push({
        what: `limit of ${names.platform(platform)}`,
        tried: `${formatWhole(rpm)} rpm`,
        now: limit === null ? 'not known' : `${formatWhole(limit)} rpm`,
      });
  }
  return found;
}

/** 'hold from a chance of 30 % instead of 35 %' */
export const sayDifferences = (differences: readonly Difference[]): string =>
  differences.map(({ what, tried, now }) => `${what} ${tried} instead of ${now}`).join('; ');

/** At which threshold a rule asks. */
export function sayThreshold({ rule, threshold, matched }: RuleScore): string {
  if (rule === 'list' || threshold === null) return '';
  const at =
    rule === 'slip_level'
      ? `from ${formatWhole(threshold)} % of the limit`
      : `${formatTenths(threshold)} rpm above the week before`;
  return matched ? `${at}, set to ask as often as the list` : at;
}
