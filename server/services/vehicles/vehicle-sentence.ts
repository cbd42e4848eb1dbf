import type { ListedAssessment } from '#db/queries/list-assessments.ts';
import type { StoredBrief } from '#server/services/assessment/stored-assessment.ts';
import type { CodeBook } from '#server/services/codes/code-book.ts';
import { mileageWords, spanWords, type Units, wayWords } from '#server/services/words/length-words.ts';
import { missingWords, reasonWords } from '#server/services/words/reason-words.ts';

/** What the readings say, in one sentence, in the reader's units. */
export function vehicleSentence(
  row: ListedAssessment | null,
  referenceDutyPct: number,
  units: Units,
  book: CodeBook,
): string {
  if (row === null) return 'No reading has been assessed yet.';
  const brief = row.brief as StoredBrief;
  const level = row.referenceSlipRpm;
  if (level === null)
    return `${brief.missing.map(missingWords)[0] ?? 'Too little is known to say anything'}.`;
  const at = `at ${Math.round(referenceDutyPct)} % command`;
  const rpm = Math.round(level);
  const baseline = Math.round(row.baselineRpm ?? level);
  const risen = brief.reasons.find((reason) => reason.kind === 'risen');
  const days = (km: number) => {
    if (row.kmPerDay === null || row.kmPerDay <= 0) return '';
    const n = Math.max(1, Math.round(km / row.kmPerDay));
    return `, about ${n} ${n === 1 ? 'day' : 'days'}`;
  };
  if (risen?.kind === 'risen' && row.grade !== 'steady') {
    const rise = `Slip ${at} has risen from ${baseline} to ${rpm} rpm over ${wayWords(risen.overKm, units)}`;
    if (level >= row.limitRpm) return `${rise} and is past the limit of ${Math.round(row.limitRpm)} rpm.`;
    if (row.kmP10 === null || row.kmP90 === null || row.kmP50 === null) return `${rise}.`;
    if (row.kmP90 < 100) return `${rise}; it is about to reach the limit of ${Math.round(row.limitRpm)} rpm.`;
    return `${rise}; it should reach the limit ${spanWords(row.kmP10, row.kmP90, units)}${days(row.kmP50)}.`;
  }
  const first = brief.reasons.find((reason) => reason.kind !== 'no_drift' && reason.kind !== 'fleet_moved');
  if (first !== undefined && row.grade !== 'steady') return `${reasonWords(first, units, book)}.`;
  const missing = brief.missing.find((one) => one.kind === 'few_stretches' || one.kind === 'no_usable');
  if (missing !== undefined) return `${missingWords(missing)}; slip ${at} was ${rpm} rpm.`;
  const since = row.odometerKm === null ? '' : ` up to ${mileageWords(row.odometerKm, units)}`;
  return `Slip ${at} is ${rpm} rpm and shows no rise${since}.`;
}
