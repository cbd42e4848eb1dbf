/** What decides the place of one vehicle in the inspection list. */
export interface RankTerms {
  vehicle: number;
  costAvoided: number;
  /** slip above the healthy level, rpm */
  excessRpm: number;
}

/**
 * Which of two vehicles stands above the other in the inspection list.
 *
 * The greater cost avoided first; of equals the one whose slip lies further above healthy, then the lower number.
 *
 * @param a one vehicle's terms
 * @param b the other's
 * @returns below 0 where `a` stands above `b`, above 0 where below; 0 only for the same vehicle
 * Source: own rule. Edges: costs are compared exactly, so what came of the same numbers is a tie. Errors: none.
 * @example compareForRank({ vehicle: 2, costAvoided: 9, excessRpm: 0 }, { vehicle: 1, costAvoided: 5, excessRpm: 0 }) // -4
 */
export function compareForRank(a: RankTerms, b: RankTerms): number {
  return b.costAvoided - a.costAvoided || b.excessRpm - a.excessRpm || a.vehicle - b.vehicle;
}
