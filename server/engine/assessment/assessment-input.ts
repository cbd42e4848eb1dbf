import type { StretchRow } from '#server/engine/stretches/stretch-row.ts';

/** A life of which the assessment is asked. */
export interface AssessedLife {
  number: number;
  /** null where nobody registered it */
  fittedKm: number | null;
  /** what the converter had run before it was fitted; left out where that is not known */
  runKm?: number;
}

export interface AssessmentInput {
  /** stretches of one vehicle, all bands and lives */
  stretches: readonly StretchRow[];
  life: AssessedLife;
  nowKm: number | null;
  nowMs: number;
  lastReadingMs: number | null;
  codes: readonly { code: string; n: number; lastMs: number }[];
  hasPlatform: boolean;
}
