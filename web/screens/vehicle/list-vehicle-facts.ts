import type { VehicleDetail } from '#server/contract/vehicle.ts';
import { judgeVin } from '#server/contract/vin.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatAge, formatDays } from '#web/format/format-days.ts';
import { formatKm, formatKmRange, formatOdometer } from '#web/format/format-km.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { driftUnit, formatDrift, formatRpm } from '#web/format/format-rpm.ts';
import type { Units } from '#web/format/units.ts';

export interface VehicleFact {
  name: string;
  value: string;
  note?: string;
}

export function listVehicleFacts(
  detail: VehicleDetail,
  horizonKm: number,
  units: Units,
  now: Date,
): VehicleFact[] {
  const row = detail.assessment;
  const facts: VehicleFact[] = [];
  if (row !== null && row.chance_within_horizon !== null)
    facts.push({
      name: `Chance within ${formatKm(horizonKm, units)}`,
      value: formatPercent(row.chance_within_horizon),
    });
  if (row !== null && row.km_to_limit.p10 !== null && row.km_to_limit.p90 !== 0)
    facts.push({
      name: 'Limit reached in',
      value: formatKmRange(row.km_to_limit.p10, row.km_to_limit.p90, units),
      note: sayDays(row.days_to_limit),
    });
  if (row !== null && row.reference_slip_rpm !== null)
    facts.push({
      name: 'Slip now',
      value: formatRpm(row.reference_slip_rpm),
      ...(row.limit_rpm === null ? {} : { note: `limit ${formatRpm(row.limit_rpm)}` }),
    });
  if (row !== null && row.drift_rpm_per_1000km !== null)
    facts.push({
      name: 'Drift since it began',
      value: formatDrift(row.drift_rpm_per_1000km.estimate, units),
      note: driftUnit(units),
    });
  facts.push({
    name: 'Odometer',
    value: formatOdometer(detail.odometer_km, units),
    ...(row === null || row.km_per_day === null ? {} : { note: `${formatKm(row.km_per_day, units)} a day` }),
  });
  facts.push({
    name: 'Last reading',
    value: formatMoment(detail.last_reading_at),
    ...(detail.last_reading_at === null ? {} : { note: formatAge(detail.last_reading_at, now) }),
  });
  if (detail.vin !== null) {
    const { warning } = judgeVin(detail.vin);
    facts.push({ name: 'VIN', value: detail.vin, ...(warning === null ? {} : { note: warning }) });
  }
  return facts;
}

const sayDays = ({
  p10,
  p50,
  p90,
}: {
  p10: number | null;
  p50: number | null;
  p90: number | null;
}): string =>
  p50 !== null
    ? `about ${formatDays(p50)}`
    : `${formatDays(p10)} or more${p90 === null ? '' : `, at most ${formatDays(p90)}`}`;
