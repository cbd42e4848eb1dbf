import type { Grade, RankFacts } from './assessment-model.ts';

/** Where the grades begin. */
export interface GradeLimits {
  /** false alarms among the vehicles said to drift */
  q: number;
  /** chance past the limit now, or within the next 1,000 km, from which a vehicle stays in the depot */
  holdChance: number;
  /** chance within the horizon from which an inspection is booked */
  bookChance: number;
  /** days without a reading after which nobody can say that slip is still steady; below 14 nothing is noted of it */
  quietDays: number;
}

/** Where they begin unless a fleet says otherwise. Own choice, calibrated on simulated fleets. */
export const gradeLimits: GradeLimits = { q: 0.05, holdChance: 0.25, bookChance: 0.06, quietDays: 30 };

/**
 * Grade of one vehicle, once its evidence is set against the fleet.
 *
 * hold: evidence, and the limit is passed or may be passed within 1,000 km; book: evidence, and the chance within
 * the horizon is large enough, or a trouble code names the clutch; watch: evidence of a rise; unknown: too little to
 * say, or no reading for too many days; steady: none of these.
 *
 * @param assessment of the vehicle
 * @param q          its q-value over the fleet; null where it has no p
 * @param limits     where the grades begin
 * @returns grade
 * Source: own rule. Edges: a code books a vehicle of which nothing else is known. Errors: none.
 * @example gradeVehicle({ ...nothingSeen, codes: 1 }, null) // 'book'
 */
export function gradeVehicle(
  assessment: RankFacts,
  q: number | null,
  limits: GradeLimits = gradeLimits,
): Grade {
  const told = q !== null && q < limits.q;
  const soon = Math.max(assessment.chancePastLimit, assessment.chanceSoon);
  if (told && soon >= limits.holdChance) return 'hold';
  const chance = assessment.chanceWithinHorizon - assessment.suddenChance;
  if (told && chance >= limits.bookChance) return 'book';
  if (assessment.codes > 0) return 'book';
  if (assessment.missing.some((one) => one.kind === 'few_stretches' || one.kind === 'no_usable'))
    return 'unknown';
  if (told && assessment.drifting + assessment.stepping > 0.5) return 'watch';
  const quiet = assessment.missing.some((one) => one.kind === 'quiet' && one.days >= limits.quietDays);
  return quiet ? 'unknown' : 'steady';
}
