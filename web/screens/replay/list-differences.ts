import type { ReplayRequest } from '#server/contract/replay.ts';
import type { Thresholds } from '#server/contract/settings.ts';
import type { FleetNames } from '#web/api/use-fleet-names.ts';
import { formatRpm } from '#web/format/format-rpm.ts';
import { toDraft as inPercent } from '#web/format/thresholds-draft.ts';
import { withUnit } from '#web/format/with-unit.ts';

export interface Difference {
  /** whose limit; null where it is a threshold */
  platform: string | null;
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
    .map(([field, what]) => ({
      platform: null,
      what,
      tried: withUnit(tried[field], '%'),
      now: withUnit(now[field], '%'),
    }));
  if (tried.quiet_days !== now.quiet_days)
    found.push({
      platform: null,
      what: 'unknown after',
      tried: withUnit(tried.quiet_days, 'days'),
      now: withUnit(now.quiet_days, 'days'),
    });
  for (const [platform, rpm] of Object.entries(limits_rpm)) {
    const limit = present.limitOf(platform);
    if (limit !== rpm)
      found.push({
        platform,
        what: `limit of ${names.platform(platform)}`,
        tried: formatRpm(rpm),
        now: limit === null ? 'not known' : formatRpm(limit),
      });
  }
  return found;
}

/** 'hold from a chance of 30 % instead of 25 %' */
export const sayDifferences = (differences: readonly Difference[]): string =>
  differences.map(({ what, tried, now }) => `${what} ${tried} instead of ${now}`).join('; ');
