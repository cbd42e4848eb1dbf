import type { Distance, RankingRow } from '#server/contract/ranking.ts';
import type { FleetNames } from '#web/api/use-fleet-names.ts';
import { formatAge, formatDays } from '#web/format/format-days.ts';
import { formatKm, formatKmRange, formatOdometer } from '#web/format/format-km.ts';
import { formatMoney } from '#web/format/format-money.ts';
import { formatWhole, noFigure } from '#web/format/format-number.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { driftUnit, formatDrift, formatRpm } from '#web/format/format-rpm.ts';
import type { Units } from '#web/format/units.ts';

export interface Fact {
  name: string;
  value: string;
}

/** A vehicle's figures in words, in the order in which a planner asks for them. */
export function listFacts(
  row: RankingRow,
  units: Units,
  now: Date,
  { withCost, names }: { withCost: boolean; names: FleetNames },
): Fact[] {
  const drift = row.drift_rpm_per_1000km;
  return [
    { name: 'Time to limit', value: formatDayRange(row.days_to_limit) },
    {
      name: 'Distance to limit',
      value:
        row.km_to_limit.p90 === 0 ? 'passed' : formatKmRange(row.km_to_limit.p10, row.km_to_limit.p90, units),
    },
    { name: 'Chance within horizon', value: formatPercent(row.chance_within_horizon) },
    { name: 'Reference slip', value: formatSlip(row) },
    {
      name: 'Drift since it began',
      value:
        drift === null
          ? noFigure
          : `${formatDrift(drift.estimate, units)} (${formatDrift(drift.low, units)} to ${formatDrift(drift.high, units)}) ${driftUnit(units)}`,
    },
    {
      name: 'Onset at',
      value: formatOdometer(row.onset_km === null ? null : Math.round(row.onset_km / 100) * 100, units),
    },
    { name: 'Odometer', value: formatOdometer(row.odometer_km, units) },
    { name: 'Runs', value: row.km_per_day === null ? noFigure : `${formatKm(row.km_per_day, units)} a day` },
    { name: 'Last reading', value: formatAge(row.last_reading_at, now) },
    { name: 'Depot', value: row.depot === null ? 'none' : names.depot(row.depot) },
    { name: 'Platform', value: row.platform === null ? 'none' : names.platform(row.platform) },
    ...(withCost ? [{ name: 'Expected cost avoided', value: formatMoney(row.expected_cost_avoided) }] : []),
  ];
}

function formatSlip(row: RankingRow): string {
  const parts = [formatRpm(row.reference_slip_rpm)];
  if (row.baseline_rpm !== null) parts.push(`healthy ${formatWhole(row.baseline_rpm)}`);
  if (row.limit_rpm !== null) parts.push(`limit ${formatWhole(row.limit_rpm)}`);
  return parts.join(', ');
}

function formatDayRange({ p10, p50, p90 }: Distance): string {
  if (p90 === 0) return 'limit passed';
  if (p10 === null && p50 === null) return noFigure;
  const range =
    p90 === null ? `${formatDays(p10 ?? p50)} or more` : `${formatDays(p10)} to ${formatDays(p90)}`;
  return p50 === null ? range : `${formatDays(p50)} (${range})`;
}
