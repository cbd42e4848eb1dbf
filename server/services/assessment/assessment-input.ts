import type { AssessedVehicle } from '#db/queries/read-assessed-vehicles.ts';
import type { AssessmentInput } from '#server/engine/assessment/assessment-input.ts';
import { STRETCH_KM } from '#server/engine/stretches/build-stretches.ts';
import type { StretchRow } from '#server/engine/stretches/stretch-row.ts';
import type { CodeBook } from '#server/services/codes/code-book.ts';
import { findClutchCodes } from '#server/services/codes/find-clutch-codes.ts';
import { type CurrentLife, currentLife } from './current-life.ts';

/** What the assessment of one vehicle starts from, out of its stretches and what else is known of it. */
export function toAssessmentInput(
  facts: AssessedVehicle,
  stretches: readonly StretchRow[],
  book: CodeBook,
  nowMs: number,
  hasPlatform: boolean,
): AssessmentInput {
  const nowKm = facts.odometerKm === null ? null : facts.odometerKm + facts.offsetKm;
  const life = currentLife(facts, nowKm, nowMs);
  const repair = repairOf(facts, life);
  const sinceMs = Math.max(life.fittedAtMs ?? 0, repair?.atMs ?? 0);
  const isOfLife = ({ last }: { last: string }) => Date.parse(last) >= sinceMs;
  const codes = life.number === facts.life ? findClutchCodes(book, facts.codes.filter(isOfLife)) : [];
  return {
    stretches: stretchesSince(stretches, life, repair),
    life,
    nowKm,
    nowMs,
    lastReadingMs: facts.lastReadingAt?.getTime() ?? null,
    codes: codes.map(({ code, n, last }) => ({ code, n, lastMs: Date.parse(last) })),
    hasPlatform,
  };
}

/** The last repair of the present life. A converter that was fitted since begins anew by itself. */
function repairOf({ repair }: AssessedVehicle, life: CurrentLife): AssessedVehicle['repair'] {
  return repair === null || repair.km < (life.fittedKm ?? 0) ? null : repair;
}

/** Slip of a clutch that a repair set right says nothing of it now: its trend begins with the first whole stretch after. */
function stretchesSince(
  rows: readonly StretchRow[],
  { number }: CurrentLife,
  repair: AssessedVehicle['repair'],
): readonly StretchRow[] {
  if (repair === null) return rows;
  const fromKm = Math.ceil(repair.km / STRETCH_KM) * STRETCH_KM;
  return rows.filter(({ life, odometerKm }) => life !== number || odometerKm >= fromKm);
}
