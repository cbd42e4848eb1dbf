import type { RankingQuery, RankingRow } from '#server/contract/ranking.ts';
import type { Context } from '#server/services/context.ts';
import { type Cell, writeCsv } from '#server/services/csv/write-csv.ts';
import { listAllRows } from './list-ranking.ts';

const columns: Record<string, (row: RankingRow) => Cell> = {
  rank: (row) => row.rank,
  vehicle: (row) => row.vehicle,
  depot: (row) => row.depot,
  platform: (row) => row.platform,
  grade: (row) => row.grade,
  odometer_km: (row) => row.odometer_km,
  km_per_day: (row) => row.km_per_day,
  last_reading_at: (row) => row.last_reading_at,
  reference_slip_rpm: (row) => row.reference_slip_rpm,
  baseline_rpm: (row) => row.baseline_rpm,
  limit_rpm: (row) => row.limit_rpm,
  onset_km: (row) => row.onset_km,
  drift_rpm_per_1000km: (row) => row.drift_rpm_per_1000km?.estimate ?? null,
  drift_low: (row) => row.drift_rpm_per_1000km?.low ?? null,
  drift_high: (row) => row.drift_rpm_per_1000km?.high ?? null,
  chance_within_horizon: (row) => row.chance_within_horizon,
  km_to_limit_p10: (row) => row.km_to_limit.p10,
  km_to_limit_p50: (row) => row.km_to_limit.p50,
  km_to_limit_p90: (row) => row.km_to_limit.p90,
  days_to_limit_p10: (row) => row.days_to_limit.p10,
  days_to_limit_p50: (row) => row.days_to_limit.p50,
  days_to_limit_p90: (row) => row.days_to_limit.p90,
  expected_cost_avoided: (row) => row.expected_cost_avoided,
  pattern: (row) => row.pattern,
  reasons: (row) => row.reasons.join(' · '),
  missing: (row) => row.missing.join(' · '),
  booking_state: (row) => row.booking?.state ?? null,
  booking_depot: (row) => row.booking?.depot ?? null,
  booking_day: (row) => row.booking?.day ?? null,
  booking_from: (row) => row.booking?.from ?? null,
  booking_bay: (row) => row.booking?.bay ?? null,
  inspected_on: (row) => row.inspected_on,
  rank_week_ago: (row) => row.week_ago?.rank ?? null,
  grade_week_ago: (row) => row.week_ago?.grade ?? null,
};

/** The inspection list as CSV, all rows that the filters let through. */
export async function rankingAsCsv(
  ctx: Context,
  query: Omit<RankingQuery, 'limit' | 'offset'>,
): Promise<string> {
  const names = Object.keys(columns);
  const parts = [writeCsv(names, [])];
  for await (const rows of listAllRows(ctx, query)) {
    const cells = rows.map((row) => Object.values(columns).map((read) => read(row)));
    parts.push(writeCsv(names, cells, { header: false }));
  }
  return parts.join('');
}
