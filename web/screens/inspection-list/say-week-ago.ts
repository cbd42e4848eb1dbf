import type { RankingRow } from '#server/contract/ranking.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { formatRpm } from '#web/format/format-rpm.ts';

/** Where a vehicle stood a week ago: 'rank 15, watch, 41 rpm, chance 12 %'; with the figures that are known. */
export function sayWeekAgo({ week_ago }: Pick<RankingRow, 'week_ago'>): string {
  if (week_ago === null) return 'not known';
  const { rank, grade, reference_slip_rpm, chance_within_horizon } = week_ago;
  return [
    ...(rank === null ? [] : [`rank ${formatWhole(rank)}`]),
    grade,
    ...(reference_slip_rpm === null ? [] : [formatRpm(reference_slip_rpm)]),
    ...(chance_within_horizon === null ? [] : [`chance ${formatPercent(chance_within_horizon)}`]),
  ].join(', ');
}
