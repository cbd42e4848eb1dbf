import { findRanked, findRankedBelow, type Ranked } from '#db/queries/find-ranked.ts';
import { listKeys } from '#db/queries/list-assessments.ts';
import type { Sight } from '#db/queries/seen-vehicles.ts';
import type { ExplainQuery, Explanation } from '#server/contract/ranking.ts';
import { expectAvoidedCost } from '#server/engine/ranking/expect-avoided-cost.ts';
import { SlipdriftError } from '#server/errors.ts';
import { chanceAt, DEFAULT_HORIZON_KM } from '#server/services/assessment/horizon.ts';
import type { StoredFacts } from '#server/services/assessment/stored-assessment.ts';
import type { Context } from '#server/services/context.ts';
import { sightOf } from '#server/services/sight.ts';
import { lastWords, type RankSide, rankWords } from '#server/services/words/rank-words.ts';
import { type Place, placeFleet } from './place-fleet.ts';
import { type CostsOf, readCosts } from './read-costs.ts';

/** Why a vehicle stands above another, or below it; the next one down the list where none is named. */
export async function explainRank(ctx: Context, query: ExplainQuery): Promise<Explanation> {
  const horizonKm = query.horizon_km ?? DEFAULT_HORIZON_KM;
  const sight = sightOf(ctx.actor);
  if (query.against === query.vehicle)
    throw new SlipdriftError('invalid_request', `${query.vehicle} cannot be set against itself.`, {
      errors: [{ field: 'against', message: 'must be another vehicle' }],
    });
  const [asked, costsOf, places] = await Promise.all([
    requireRanked(ctx, query.vehicle, sight),
    readCosts(ctx.db),
    horizonKm === DEFAULT_HORIZON_KM ? null : placeFleet(ctx, horizonKm),
  ]);
  const other =
    query.against === undefined
      ? await findBelow(ctx, asked, sight, places)
      : await requireRanked(ctx, query.against, sight);
  const toSide = (row: Ranked) => weigh(row, horizonKm, costsOf, places);
  const [above, below] = [asked, ...(other === null ? [] : [other])]
    .map(toSide)
    .toSorted((a, b) => a.rank - b.rank || a.key - b.key);
  if (above === undefined) throw new Error('explainRank needs the vehicle that it was asked for');
  const within = { horizonKm, units: query.units ?? 'metric' };
  return {
    horizon_km: horizonKm,
    above: toWeighed(above),
    below: below === undefined ? null : toWeighed(below),
    sentences: below === undefined ? lastWords(above, within) : rankWords(above, below, within),
  };
}

async function requireRanked(ctx: Context, unit: string, sight: Sight): Promise<Ranked> {
  const row = await findRanked(ctx.db, unit, sight);
  if (row === null)
    throw new SlipdriftError(
      'not_found',
      `No vehicle '${unit}' is in the list. Retired ones have no place in it.`,
    );
  return row;
}

async function findBelow(
  ctx: Context,
  asked: Ranked,
  sight: Sight,
  places: ReadonlyMap<number, Place> | null,
): Promise<Ranked | null> {
  if (places === null) return findRankedBelow(ctx.db, asked, sight);
  const rankOf = (key: number) => places.get(key)?.rank ?? Number.MAX_SAFE_INTEGER;
  const seen = await listKeys(ctx.db, { sight }, 'rank', null, ctx.now());
  const next = seen
    .filter(({ key }) => rankOf(key) > rankOf(asked.key))
    .reduce<(typeof seen)[number] | null>(
      (least, one) => (least === null || rankOf(one.key) < rankOf(least.key) ? one : least),
      null,
    );
  return next === null ? null : findRanked(ctx.db, next.unit, sight);
}

function weigh(
  row: Ranked,
  horizonKm: number,
  costsOf: CostsOf,
  places: ReadonlyMap<number, Place> | null,
): RankSide {
  const { chances, chanceWithinHorizon, codes, levelRpm, baselineRpm } = row.facts as StoredFacts;
  const costs = costsOf(row.platform);
  const slipChance = places === null ? chanceWithinHorizon : chanceAt(chances, horizonKm);
  return {
    key: row.key,
    unit: row.unit,
    rank: places?.get(row.key)?.rank ?? row.rank,
    grade: row.grade,
    ...expectAvoidedCost(slipChance, codes, costs, row.isCalm),
    isCalm: row.isCalm,
    slipChance,
    atStake: costs.roadFailureCost - costs.plannedRepairCost,
    inspection: costs.inspectionCost,
    excessRpm: (levelRpm ?? 0) - (baselineRpm ?? 0),
    kmP50: row.kmP50,
    platform: row.platformName,
  };
}

const toWeighed = ({ unit, rank, grade, chance, atStake, inspection, costAvoided }: RankSide) => ({
  vehicle: unit,
  rank,
  grade,
  chance,
  at_stake: atStake,
  inspection,
  cost_avoided: costAvoided,
});
