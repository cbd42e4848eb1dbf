import { findAssessment } from '#db/queries/list-assessments.ts';
import { findOpenBooking } from '#db/queries/lock-booking.ts';
import type { VehicleRecord } from '#db/queries/read-vehicle-record.ts';
import type { VehicleDetail } from '#server/contract/vehicle.ts';
import type { StoredBrief } from '#server/services/assessment/stored-assessment.ts';
import { toListedBooking } from '#server/services/bookings/to-listed-booking.ts';
import { readCodeBook } from '#server/services/codes/code-book.ts';
import type { Context } from '#server/services/context.ts';
import { toRankingRow } from '#server/services/inspection/to-ranking-row.ts';
import { matchAnswers } from '#server/services/intake-desk/match-answers.ts';
import { findAtShop } from '#server/services/shop/send-to-shop.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { mileageWords, type Units, wayWords } from '#server/services/words/length-words.ts';
import { patternWords } from '#server/services/words/pattern-words.ts';
import { findVehicle } from './find-vehicle.ts';
import { tellWithoutNotice } from './tell-without-notice.ts';
import { toLives } from './to-lives.ts';
import { vehicleSentence } from './vehicle-sentence.ts';

/** One vehicle with its assessment, its lives and what somebody should answer. */
export async function getVehicle(ctx: Context, unit: string, units: Units): Promise<VehicleDetail> {
  const record = await findVehicle(ctx, unit);
  const { vehicle, depot, platform } = record;
  const [row, book, shop, open, withoutNotice] = await Promise.all([
    findAssessment(ctx.db, vehicle.key, ctx.now()),
    readCodeBook(ctx.db),
    findAtShop(ctx, vehicle.key),
    findOpenBooking(ctx.db, vehicle.key),
    tellWithoutNotice(ctx, record, units),
  ]);
  const assessment = row === null ? null : toRankingRow(row, units, book, ctx.now());
  return {
    vehicle: vehicle.unit,
    depot: vehicle.depot,
    depot_name: depot?.name ?? null,
    platform: vehicle.platform,
    platform_name: platform?.name ?? null,
    vin: vehicle.vin,
    retired: vehicle.retired,
    first_reading_at: vehicle.firstReadingAt?.toISOString() ?? null,
    last_reading_at: vehicle.lastReadingAt?.toISOString() ?? null,
    odometer_km: vehicle.odometerKm === null ? null : Math.round(vehicle.odometerKm),
    sentence: vehicleSentence(row, toEngineSettings(platform).reference.dutyPct, units, book),
    pattern_words: patternWords(assessment?.pattern ?? 'none'),
    assessment,
    lives: toLives(record),
    shop,
    unavailable: vehicle.unavailable,
    booking: open === null ? null : toListedBooking(open.row, open.timeZone, ctx.now()),
    without_notice: withoutNotice,
    questions: listQuestions(record, row?.brief as StoredBrief | undefined, units),
  };
}

function listQuestions(record: VehicleRecord, brief: StoredBrief | undefined, units: Units): string[] {
  const questions: string[] = [];
  if (record.vehicle.platform === null) questions.push('Which platform is this vehicle?');
  if (record.vehicle.depot === null) questions.push('Which depot does it belong to?');
  const answered = matchAnswers(record.steps, record.answers);
  for (const step of record.steps.filter((one) => !answered.has(one)))
    questions.push(
      `Was the odometer changed on ${step.at.toISOString().slice(0, 10)}? Its figures jump there; ${wayWords(Math.abs(step.offsetKm), units)} ${step.offsetKm >= 0 ? 'are added' : 'are taken off'} so that the tracks join.`,
    );
  for (const reason of brief?.reasons ?? [])
    if (reason.kind === 'fell_back')
      questions.push(
        `Was a converter replaced at about ${mileageWords(reason.atKm, units)}? Slip fell there with no work on record.`,
      );
  return questions;
}
