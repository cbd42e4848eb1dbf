import type { ListedAssessment } from '#db/queries/list-assessments.ts';
import type { RankingRow } from '#server/contract/ranking.ts';
import { type Pattern, patterns } from '#server/contract/words.ts';
import type { Reason } from '#server/engine/assessment/assessment-model.ts';
import type { StoredBrief } from '#server/services/assessment/stored-assessment.ts';
import { toListedBooking } from '#server/services/bookings/to-listed-booking.ts';
import type { CodeBook } from '#server/services/codes/code-book.ts';
import type { Units } from '#server/services/words/length-words.ts';
import { missingWords, reasonWords } from '#server/services/words/reason-words.ts';

/** A stored row as the interface shows it. */
export function toRankingRow(
  row: ListedAssessment,
  units: Units,
  book: CodeBook,
  now: Date,
  isUsualHorizon = true,
): RankingRow {
  const brief = row.brief as StoredBrief;
  const perDay = row.kmPerDay;
  const days = (km: number | null) =>
    km === null || perDay === null || perDay <= 0 ? null : round(km / perDay, 1);
  const km = (value: number | null) => (value === null ? null : Math.round(value));
  return {
    rank: row.rank,
    vehicle: row.unit,
    depot: row.depot,
    platform: row.platform,
    grade: row.grade,
    odometer_km: km(row.odometerKm),
    km_per_day: perDay === null ? null : round(perDay, 1),
    last_reading_at: row.lastReadingAt?.toISOString() ?? null,
    reference_slip_rpm: row.referenceSlipRpm === null ? null : round(row.referenceSlipRpm, 1),
    baseline_rpm: row.baselineRpm === null ? null : round(row.baselineRpm, 2),
    limit_rpm: row.limitRpm,
    onset_km: km(row.onsetKm),
    drift_rpm_per_1000km:
      row.driftRpmPerKm === null
        ? null
        : {
            estimate: round(row.driftRpmPerKm * 1000, 2),
            low: round((row.driftLow ?? row.driftRpmPerKm) * 1000, 2),
            high: round((row.driftHigh ?? row.driftRpmPerKm) * 1000, 2),
          },
    q_value: row.q,
    chance_within_horizon: row.chance === null ? null : round(row.chance, 4),
    km_to_limit: { p10: km(row.kmP10), p50: km(row.kmP50), p90: km(row.kmP90) },
    days_to_limit: { p10: days(row.kmP10), p50: days(row.kmP50), p90: days(row.kmP90) },
    expected_cost_avoided: row.costAvoided === null ? null : Math.round(row.costAvoided),
    pattern: toPattern(row.pattern),
    reasons: [...calmReason(row), ...brief.reasons].map((reason) => reasonWords(reason, units, book)),
    missing: brief.missing.map(missingWords),
    spark: brief.spark,
    booking: row.booking === null ? null : toListedBooking(row.booking, row.bookingTimeZone ?? 'UTC', now),
    inspected_on: row.inspectedOn,
    calm: toCalm(row),
    week_ago:
      row.weekAgo === null
        ? null
        : {
            rank: isUsualHorizon ? row.weekAgo.rank : null,
            grade: row.weekAgo.grade,
            reference_slip_rpm:
              row.weekAgo.referenceSlipRpm === null ? null : round(row.weekAgo.referenceSlipRpm, 1),
            chance_within_horizon:
              isUsualHorizon && row.weekAgo.chance !== null ? round(row.weekAgo.chance, 4) : null,
            km_p50: km(row.weekAgo.kmP50),
          },
  };
}

type Calm = Pick<ListedAssessment, 'calm'>;

function toCalm({ calm }: Calm): RankingRow['calm'] {
  if (calm === null || calm.outcome === null || calm.untilKm === null || calm.workAt === null) return null;
  return {
    packet: calm.id,
    outcome: calm.outcome,
    until_km: Math.round(calm.untilKm),
    on: calm.workAt.toISOString().slice(0, 10),
  };
}

/** The word of the shop comes first: it says why the vehicle stands where it does. */
function calmReason({ calm }: Calm): Reason[] {
  if (calm?.workAt == null || calm.untilKm === null) return [];
  if (calm.outcome !== 'no_fault_found' && calm.outcome !== 'declined') return [];
  return [{ kind: 'calm', outcome: calm.outcome, untilKm: calm.untilKm, atMs: calm.workAt.getTime() }];
}

function toPattern(text: string): Pattern {
  return patterns.find((pattern) => pattern === text) ?? 'none';
}

function round(value: number, digits: number): number {
  const unit = 10 ** digits;
  return Math.round(value * unit) / unit;
}
