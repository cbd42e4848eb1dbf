import type { ReplayRequest } from '#server/contract/replay.ts';
import type { Thresholds } from '#server/contract/settings.ts';
import { kmFromMiles } from '#server/contract/units.ts';
import type { ReplayQuestion } from '#web/api/use-replay.ts';
import { addDays, countDays, isDay } from '#web/format/days.ts';
import { toReaderDistance } from '#web/format/format-km.ts';
import { type NumberRead, readNumber } from '#web/format/read-number.ts';
import {
  readDraft as readThresholds,
  type ThresholdsDraft,
  thresholdFields,
  toDraft as toThresholdsDraft,
} from '#web/format/thresholds-draft.ts';
import type { Units } from '#web/format/units.ts';
import { splitIds } from '#web/ui/joined-ids.ts';
import { usualHorizonKm } from '#web/ui/rail-geometry.ts';
import { joinLimits, type ReplaySearch, splitLimits } from './replay-search.ts';

export const usualDays = 182;
const mostDays = 731;
const leastHorizonKm = 500;
const mostHorizonKm = 100_000;

/** What stands in the form. */
export interface ReplayDraft {
  from: string;
  to: string;
  platforms: string | undefined;
  depots: string | undefined;
  /** in the reader's distance */
  horizon: string;
  thresholds: ThresholdsDraft;
  /** by platform; empty or left out: as it is */
  limits: Record<string, string>;
  rules: 'matched' | 'own';
  level: string;
  rise: string;
  note: string;
}

export interface Present {
  /** last day that is known */
  until: string;
  thresholds: Thresholds;
  units: Units;
}

/** The form as the address says, the rest as it is in use. */
export function toDraft(search: ReplaySearch, { until, thresholds, units }: Present): ReplayDraft {
  const used = toThresholdsDraft(thresholds);
  return {
    from: search.from ?? addDays(until, 1 - usualDays),
    to: search.to ?? until,
    platforms: search.platforms,
    depots: search.depots,
    horizon: showKm(search.horizon_km ?? usualHorizonKm, units),
    thresholds: {
      hold_chance: search.hold ?? used.hold_chance,
      book_chance: search.book ?? used.book_chance,
      evidence_q: search.evidence ?? used.evidence_q,
      quiet_days: search.quiet ?? used.quiet_days,
    },
    limits: splitLimits(search.limits),
    rules: search.level !== undefined || search.rise !== undefined ? 'own' : 'matched',
    level: search.level ?? '',
    rise: search.rise ?? '',
    note: search.note ?? '',
  };
}

/** What of the form stands in the address: what differs from what is in use. */
export function toSearch(draft: ReplayDraft, present: Present): ReplaySearch {
  const usual = toDraft({}, present);
  const other = (text: string, usually: string) =>
    text === usually || text.trim() === '' ? undefined : text;
  const isOwn = draft.rules === 'own';
  const limits = joinLimits(draft.limits);
  const horizon = readHorizon(other(draft.horizon, usual.horizon) ?? '', present.units).value;
  const all = {
    from: other(draft.from, usual.from),
    to: other(draft.to, usual.to),
    platforms: draft.platforms,
    depots: draft.depots,
    horizon_km: horizon ?? undefined,
    hold: other(draft.thresholds.hold_chance, usual.thresholds.hold_chance),
    book: other(draft.thresholds.book_chance, usual.thresholds.book_chance),
    evidence: other(draft.thresholds.evidence_q, usual.thresholds.evidence_q),
    quiet: other(draft.thresholds.quiet_days, usual.thresholds.quiet_days),
    limits: limits === '' ? undefined : limits,
    level: isOwn ? other(draft.level, '') : undefined,
    rise: isOwn ? other(draft.rise, '') : undefined,
    note: other(draft.note, ''),
  };
  return Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined));
}

/** The form with what an earlier replay asked for. */
export function draftOf(request: ReplayRequest, present: Present): ReplayDraft {
  const { slip_level_pct: level, weekly_rise_rpm: rise } = request.rules;
  return {
    from: request.from,
    to: request.to,
    platforms: request.platforms.length === 0 ? undefined : request.platforms.join(','),
    depots: request.depots.length === 0 ? undefined : request.depots.join(','),
    horizon: showKm(request.horizon_km, present.units),
    thresholds: toThresholdsDraft(request.thresholds ?? present.thresholds),
    limits: Object.fromEntries(Object.entries(request.limits_rpm).map(([id, rpm]) => [id, String(rpm)])),
    rules: level === null && rise === null ? 'matched' : 'own',
    level: level === null ? '' : String(level),
    rise: rise === null ? '' : String(rise),
    note: request.note,
  };
}

export type ReplayFaults = Record<string, string>;

/** What to ask for, or what is wrong at each field. Faults are named as the server names fields. */
export function readReplayDraft(
  draft: ReplayDraft,
  present: Present,
): { question: ReplayQuestion | null; faults: ReplayFaults } {
  const faults: ReplayFaults = {};
  const note = (field: string, fault: string | undefined) => {
    if (fault !== undefined) faults[field] = fault;
  };
  note('from', isDay(draft.from) ? undefined : 'A first day is needed.');
  note('to', faultOfEnd(draft, present.until));
  const horizon = readHorizon(draft.horizon, present.units);
  note('horizon_km', horizon.fault);
  const thresholds = readThresholds(draft.thresholds);
  for (const field of thresholdFields) note(`thresholds.${field}`, thresholds.faults[field]);
  const limits = Object.entries(draft.limits).flatMap(([platform, text]): [string, number][] => {
    if (text.trim() === '') return [];
    const read = readNumber(text, { least: 10, most: 2000, unit: 'rpm' });
    note(`limits_rpm.${platform}`, read.fault);
    return read.value === null ? [] : [[platform, read.value]];
  });
  const own = (text: string, field: string, rule: { least: number; most: number; unit: string }) => {
    if (draft.rules === 'matched' || text.trim() === '') return null;
    const read = readNumber(text, rule);
    note(`rules.${field}`, read.fault);
    return read.value;
  };
  const level = own(draft.level, 'slip_level_pct', { least: 1, most: 500, unit: '%' });
  const rise = own(draft.rise, 'weekly_rise_rpm', { least: 0.1, most: 1000, unit: 'rpm' });
  if (Object.keys(faults).length > 0 || thresholds.value === null || horizon.value === null)
    return { question: null, faults };
  return {
    faults,
    question: {
      from: draft.from,
      to: draft.to,
      platforms: splitIds(draft.platforms),
      depots: splitIds(draft.depots),
      horizon_km: horizon.value,
      ...(isSame(thresholds.value, present.thresholds) ? {} : { thresholds: thresholds.value }),
      limits_rpm: Object.fromEntries(limits),
      rules: { slip_level_pct: level, weekly_rise_rpm: rise },
      note: draft.note.trim(),
    },
  };
}

function faultOfEnd({ from, to }: ReplayDraft, until: string): string | undefined {
  if (!isDay(to)) return 'A last day is needed.';
  if (to > until) return 'This day has not come yet, or nothing is known of it.';
  if (!isDay(from)) return undefined;
  if (to < from) return 'It is before the first day.';
  const days = countDays(from, to) + 1;
  return days > mostDays
    ? `This makes ${days} days; ${mostDays} at most can be run again at once.`
    : undefined;
}

const showKm = (km: number, units: Units): string => String(Math.round(toReaderDistance(km, units)));

/** In km, from the reader's distance. */
function readHorizon(text: string, units: Units): NumberRead {
  const inKm = (value: number) => (units.distance === 'mi' ? kmFromMiles(value) : value);
  const [least, most] = [leastHorizonKm, mostHorizonKm].map((km) => Math.round(toReaderDistance(km, units)));
  const read = readNumber(text, { least: least ?? 0, most: most ?? 0, unit: units.distance });
  if (read.value === null) return read;
  // Bounds in whole miles may lie a little outside those in km.
  return { value: Math.round(Math.min(mostHorizonKm, Math.max(leastHorizonKm, inKm(read.value)))) };
}

export const isSame = (a: Thresholds, b: Thresholds): boolean =>
  thresholdFields.every((field) => a[field] === b[field]);
