import type { Grade, RankFacts } from '#server/engine/assessment/assessment-model.ts';
import { type GradeLimits, gradeLimits, gradeVehicle } from '#server/engine/assessment/grade-vehicle.ts';
import { adjustPValues } from '#server/engine/multiplicity/adjust-p-values.ts';
import { compareForRank } from './compare-for-rank.ts';
import { type AvoidableCosts, expectAvoidedCost } from './expect-avoided-cost.ts';

/** What the rank needs of one vehicle. */
export interface RankedInput {
  vehicle: number;
  assessment: RankFacts;
  costs: AvoidableCosts;
  /** the word of a shop keeps the list calm about it */
  isCalm: boolean;
}

export interface RankedVehicle {
  vehicle: number;
  rank: number;
  grade: Grade;
  q: number | null;
  /** chance of reaching the limit or failing without notice within the horizon */
  chance: number;
  costAvoided: number;
}

/**
 * Order in which inspecting vehicles avoids most within the horizon.
 *
 * By the expected cost avoided ({@link expectAvoidedCost}); ties by slip above healthy, then by number
 * ({@link compareForRank}).
 * A vehicle that a shop has just looked at stands below, graded watch at most, until something new speaks
 * ({@link staysCalm}).
 * Evidence is set against the fleet by the q-values of Benjamini and Hochberg ({@link adjustPValues}).
 *
 * @param vehicles assessments with the costs of their platforms
 * @param limits   where the grades begin
 * @returns one row a vehicle, in order of rank from 1
 * Source: expected value, own rule. Edges: a vehicle with too little to say ranks by its code and its platform's
 * sudden failures alone. Errors: none.
 * @example rankVehicles([]) // []
 */
export function rankVehicles(
  vehicles: readonly RankedInput[],
  limits: GradeLimits = gradeLimits,
): RankedVehicle[] {
  const tested = vehicles.filter((one) => one.assessment.p !== null);
  const adjusted = adjustPValues(tested.map((one) => one.assessment.p ?? 1));
  const qOf = new Map(tested.map((one, i) => [one.vehicle, adjusted[i] ?? 1]));
  const rows = vehicles.map(({ vehicle, assessment, costs, isCalm }) => {
    const q = qOf.get(vehicle) ?? null;
    return {
      vehicle,
      grade: calmGrade(gradeVehicle(assessment, q, limits), isCalm),
      q,
      ...expectAvoidedCost(assessment.chanceWithinHorizon, assessment.codes, costs, isCalm),
      excessRpm: (assessment.levelRpm ?? 0) - (assessment.baselineRpm ?? 0),
    };
  });
  rows.sort(compareForRank);
  return rows.map(({ excessRpm: _, ...row }, i) => ({ ...row, rank: i + 1 }));
}

const calmGrade = (grade: Grade, isCalm: boolean): Grade =>
  isCalm && (grade === 'hold' || grade === 'book') ? 'watch' : grade;
