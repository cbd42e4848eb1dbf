import type { ListedAssessment } from '#db/queries/list-assessments.ts';
import type { StretchTotalRow } from '#db/queries/read-totals.ts';
import type { VehicleRecord } from '#db/queries/read-vehicle-record.ts';
import type { PacketFlag } from '#server/contract/packets.ts';
import { spellCode } from '#server/contract/spell-code.ts';
import { DEFAULT_HORIZON_KM } from '#server/services/assessment/horizon.ts';
import { type CodeBook, findListed } from '#server/services/codes/code-book.ts';
import { joinSpellings } from '#server/services/codes/join-spellings.ts';
import { toRankingRow } from '#server/services/inspection/to-ranking-row.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { vehicleSentence } from '#server/services/vehicles/vehicle-sentence.ts';
import type { Units } from '#server/services/words/length-words.ts';
import { patternWords } from '#server/services/words/pattern-words.ts';

interface Flagged {
  record: Pick<VehicleRecord, 'vehicle' | 'platform'>;
  assessment: ListedAssessment | null;
  totals: readonly StretchTotalRow[];
  book: CodeBook;
}

/** Why a vehicle is flagged, as it stands now; a vehicle that was never assessed is graded unknown. */
export function makeFlag({ record, assessment, totals, book }: Flagged, units: Units, now: Date): PacketFlag {
  const settings = toEngineSettings(record.platform);
  const row = assessment === null ? null : toRankingRow(assessment, units, book, now);
  const pattern = row?.pattern ?? 'none';
  return {
    at: now.toISOString(),
    grade: row?.grade ?? 'unknown',
    odometer_km: record.vehicle.odometerKm === null ? null : Math.round(record.vehicle.odometerKm),
    sentence: vehicleSentence(assessment, settings.reference.dutyPct, units, book),
    reasons: row?.reasons ?? [],
    pattern,
    pattern_words: patternWords(pattern),
    reference_slip_rpm: row?.reference_slip_rpm ?? null,
    baseline_rpm: row?.baseline_rpm ?? null,
    limit_rpm: settings.limitRpm,
    drift_rpm_per_1000km: row?.drift_rpm_per_1000km ?? null,
    chance_within_horizon: row?.chance_within_horizon ?? null,
    horizon_km: DEFAULT_HORIZON_KM,
    km_to_limit: row?.km_to_limit ?? { p10: null, p50: null, p90: null },
    codes: listCodes(totals, book),
  };
}

function listCodes(totals: readonly StretchTotalRow[], book: CodeBook): PacketFlag['codes'] {
  const sights = totals.flatMap(({ codes }) =>
    Object.entries(codes).map(([code, sight]) => ({ code, ...sight })),
  );
  return joinSpellings(sights).map(({ code, n, first, last }) => {
    const spelled = spellCode(code);
    const listed = spelled === null ? null : findListed(book, spelled);
    return {
      code,
      meaning: listed?.meaning ?? '',
      n,
      first_at: new Date(first).toISOString(),
      last_at: new Date(last).toISOString(),
      names_clutch: listed?.counts ?? false,
    };
  });
}
