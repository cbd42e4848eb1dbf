/** What the cost that an inspection avoids is made of. */
export interface CostTerms {
  /** counted with, within the horizon */
  chance: number;
  /** what a failure on the road costs over a planned repair */
  atStake: number;
  /** inspection with the day lost to it */
  inspection: number;
}

export interface WeighedPart {
  term: keyof CostTerms;
  /** how much more it avoids for the first than for the second; negative where it speaks for the second */
  worth: number;
}

/**
 * What makes inspecting one vehicle avoid more than inspecting another, term by term.
 *
 * With cost avoided = chance * stake - inspection, each factor of the product gets its mean effect over both orders of
 * exchange (Shapley value of two players):
 * chance: (c1 - c2) * (s1 + s2) / 2; stake: (s1 - s2) * (c1 + c2) / 2; inspection: i2 - i1.
 * The parts add up to the difference.
 *
 * @param first  one vehicle's terms
 * @param second the other's
 * @returns the terms that differ, the weightiest first
 * Source: L. S. Shapley, A value for n-person games, 1953, for two players. Edges: empty where nothing differs; a chance
 * that differs is worth nothing where nothing is at stake. Errors: none.
 * @example weighAgainst({ chance: 0.5, atStake: 100, inspection: 9 }, { chance: 0.25, atStake: 100, inspection: 9 }) // [{ term: 'chance', worth: 25 }]
 */
export function weighAgainst(first: CostTerms, second: CostTerms): WeighedPart[] {
  const parts: WeighedPart[] = [
    { term: 'chance', worth: ((first.chance - second.chance) * (first.atStake + second.atStake)) / 2 },
    { term: 'atStake', worth: ((first.atStake - second.atStake) * (first.chance + second.chance)) / 2 },
    { term: 'inspection', worth: second.inspection - first.inspection },
  ];
  return parts.filter(({ worth }) => worth !== 0).sort((a, b) => Math.abs(b.worth) - Math.abs(a.worth));
}
