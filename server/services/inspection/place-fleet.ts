import { compareForRank } from '#server/engine/ranking/compare-for-rank.ts';
import { expectAvoidedCost } from '#server/engine/ranking/expect-avoided-cost.ts';
import { chanceAt } from '#server/services/assessment/horizon.ts';
import type { Context } from '#server/services/context.ts';
import { readFleetFacts } from './keep-rank-facts.ts';
import { readCosts } from './read-costs.ts';

/** Where a vehicle stands within a horizon, and by what. */
export interface Place {
  rank: number;
  chance: number;
  costAvoided: number;
}

/** The place of every vehicle of the fleet within a horizon other than the usual one, from the stored chances. */
export async function placeFleet(
  { db }: Pick<Context, 'db'>,
  horizonKm: number,
): Promise<Map<number, Place>> {
  const [rows, costsOf] = await Promise.all([readFleetFacts(db), readCosts(db)]);
  const weighed = rows.map(({ key, platform, facts, isCalm }) => {
    const { chances, codes, levelRpm, baselineRpm } = facts;
    return {
      vehicle: key,
      ...expectAvoidedCost(chanceAt(chances, horizonKm), codes, costsOf(platform), isCalm),
      excessRpm: (levelRpm ?? 0) - (baselineRpm ?? 0),
    };
  });
  weighed.sort(compareForRank);
  return new Map(
    weighed.map(({ vehicle, chance, costAvoided }, i) => [vehicle, { rank: i + 1, chance, costAvoided }]),
  );
}
