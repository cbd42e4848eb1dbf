import type { ReplayRequest, ReplayResult, RuleScore } from '#server/contract/replay.ts';
import type { FleetNames } from '#web/api/use-fleet-names.ts';
import { formatDaySpan } from '#web/format/format-day.ts';
import { formatKm } from '#web/format/format-km.ts';
import { formatMoney } from '#web/format/format-money.ts';
import { formatTenths, formatWhole } from '#web/format/format-number.ts';
import type { Units } from '#web/format/units.ts';
import { withUnit } from '#web/format/with-unit.ts';

const count = (n: number, one: string, many: string): string =>
  withUnit(formatWhole(n), n === 1 ? one : many);

/** Whether the warnings were worth it: what was found, what was asked for, and what that saved. */
export function sayReplay(result: ReplayResult, units: Units): string {
  const list = result.scores.find(({ rule }) => rule === 'list');
  if (list === undefined) return 'This replay has no figures.';
  return [sayFound(list, result.failures, units), sayAsked(list, result, units), saySaved(list)].join(' ');
}

function sayFound({ found, missed, notice_km }: RuleScore, failures: number, units: Units): string {
  if (failures === 0) return 'Nothing came in this period, so nothing could be found or missed.';
  const of = failures === 1 ? 'the one failure' : `${formatWhole(failures)} failures`;
  if (found === 0) return `The list would have ${failures === 1 ? 'missed' : 'found none of'} ${of}.`;
  const all = failures === 2 ? 'both failures' : `all ${of}`;
  const what = missed > 0 ? `${formatWhole(found)} of ${of}` : failures === 1 ? of : all;
  const before = notice_km === null ? '' : `, ${sayNotice(notice_km.p50, found, units)}`;
  return `The list would have found ${what}${before}${missed === 0 ? '' : `, and ${withUnit('missed', formatWhole(missed))}`}.`;
}

const sayNotice = (km: number, found: number, units: Units): string =>
  `${formatKm(km, units)} before ${found === 1 ? 'it' : 'they'} came${found > 1 ? ' (middle)' : ''}`;

/** Early is no mistake of the list: the clutch did slip, and is said so. */
function sayAsked(score: RuleScore, { horizon_km }: ReplayResult, units: Units): string {
  const { asked, right, early, needless, undecided } = score;
  if (asked === 0) return 'It would have asked for no inspection.';
  const horizon = formatKm(horizon_km, units);
  const parts = [
    `${formatWhole(right)} ${right === 1 ? 'was' : 'were'} right and ${formatWhole(needless)} needless`,
    early === 0
      ? ''
      : `${formatWhole(early)} ${early === 1 ? 'was' : 'were'} early: the clutch did slip, but its limit was further than ${horizon} away`,
    undecided === 0 ? '' : `of ${formatWhole(undecided)} it cannot be told yet`,
  ];
  const inspections = asked === 1 ? 'the one inspection' : `${formatWhole(asked)} inspections`;
  return `Of ${inspections} that it would have asked for, ${parts.filter((part) => part !== '').join('; ')}.`;
}

function saySaved({ asked, saved }: RuleScore): string {
  if (asked === 0) return 'Nothing was spent or saved.';
  const paid = asked === 1 ? 'the one inspection' : `all ${formatWhole(asked)} inspections`;
  return saved < 0
    ? `With ${paid} paid, it would have cost about ${formatMoney(-saved)} more than it saved.`
    : `With ${paid} paid, about ${formatMoney(saved)} saved.`;
}

/** Against the best of the plain rules, in two sentences; null where nothing came. */
export function sayAgainst({ failures, scores }: ReplayResult, units: Units): string | null {
  const list = scores.find(({ rule }) => rule === 'list');
  const best = scores
    .filter(({ rule }) => rule !== 'list')
    .toSorted((a, b) => b.found - a.found || b.saved - a.saved)[0];
  if (failures === 0 || list === undefined || best === undefined) return null;
  const asking = best.matched ? 'asking as often' : `asking ${count(best.asked, 'time', 'times')}`;
  const name = best.rule === 'slip_level' ? 'A fixed level of slip' : 'A weekly rise of slip';
  const difference = list.found - best.found;
  const verdict =
    difference > 0
      ? `${formatWhole(difference)} fewer`
      : difference < 0
        ? `${formatWhole(-difference)} more`
        : 'as many';
  const rest = [
    best.notice_km === null ? '' : `, ${sayNotice(best.notice_km.p50, best.found, units)}`,
    `, with ${formatWhole(best.needless)} needless and ${best.saved < 0 ? `a loss of ${formatMoney(-best.saved)}` : `${formatMoney(best.saved)} saved`}`,
  ].join('');
  const hindsight = best.matched
    ? ' Its threshold was set afterwards, so that it asks as often; nobody knows it beforehand.'
    : '';
  return `${name}, the better of the plain rules, ${asking}, would have found ${formatWhole(best.found)} (${verdict})${rest}.${hindsight}`;
}

/** Why there is nothing; the server's reason is a sentence or a part of one. */
export function sayBroken(error: string | null): string {
  const reason = (error ?? '').trim().replace(/^The replay broke off\.?\s*/, '');
  const whole = reason === '' ? 'Nobody knows why' : `${reason[0]?.toUpperCase()}${reason.slice(1)}`;
  return `This replay broke off. ${whole.replace(/\.$/, '')}. Nothing was changed; run it again.`;
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

/** At which threshold a rule asks. */
export function sayThreshold({ rule, threshold, matched }: RuleScore): string {
  if (rule === 'list' || threshold === null) return '';
  const at =
    rule === 'slip_level'
      ? `from ${withUnit(formatWhole(threshold), '%')} of the limit`
      : `${withUnit(formatTenths(threshold), 'rpm')} above the week before`;
  return matched ? `${at}, set to ask as often as the list` : at;
}
