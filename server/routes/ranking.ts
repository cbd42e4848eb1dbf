import { z } from 'zod';
import { uncoveredHold } from '#server/contract/bookings.ts';
import {
  explainQuery,
  explanation,
  outlook,
  ranking,
  rankingFilter,
  rankingQuery,
  rankingUnits,
  rankingUnitsQuery,
} from '#server/contract/ranking.ts';
import { listUncoveredHolds } from '#server/services/bookings/list-uncovered-holds.ts';
import { explainRank } from '#server/services/inspection/explain-rank.ts';
import { listRanking, listUnits } from '#server/services/inspection/list-ranking.ts';
import { lookAhead } from '#server/services/inspection/look-ahead.ts';
import { rankingAsCsv } from '#server/services/inspection/ranking-as-csv.ts';
import { answerCsv, csvAnswer } from './answer-csv.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes, problems } from './new-routes.ts';
import { createSharedAnswer } from './share-answer.ts';

const getRanking = newCall('readVehicles', {
  method: 'get',
  path: '/api/ranking',
  summary: 'The inspection list',
  request: { query: rankingQuery },
  responses: {
    200: { description: 'Rows in order', content: { 'application/json': { schema: ranking } } },
    ...problems(400),
  },
});

const getOutlook = newCall('readVehicles', {
  method: 'get',
  path: '/api/ranking/outlook',
  summary: 'Vehicles by grade, and when the drifting ones reach their limits',
  request: { query: rankingFilter },
  responses: {
    200: { description: 'Counts and weeks', content: { 'application/json': { schema: outlook } } },
    ...problems(400),
  },
});

const getCsv = newCall('readVehicles', {
  method: 'get',
  path: '/api/ranking.csv',
  summary: 'The inspection list as CSV, all of it',
  request: { query: rankingQuery.omit({ limit: true, offset: true }) },
  responses: { 200: csvAnswer, ...problems(400) },
});

const getUnits = newCall('readFleet', {
  method: 'get',
  path: '/api/ranking/units',
  summary: 'The unit numbers of the inspection list, for a choice of many',
  request: { query: rankingUnitsQuery },
  responses: {
    200: { description: 'Unit numbers in order', ...asJson(rankingUnits) },
    ...problems(400),
  },
});

const getExplanation = newCall('readFleet', {
  method: 'get',
  path: '/api/ranking/explain',
  summary: 'Why a vehicle stands above another',
  description: 'The one that stands above comes first, whichever was asked for.',
  request: { query: explainQuery },
  responses: {
    200: { description: 'What both were weighed by, and why', ...asJson(explanation) },
    ...problems(400, 404),
  },
});

const getHolds = newCall('readFleet', {
  method: 'get',
  path: '/api/ranking/uncovered-holds',
  summary: 'Vehicles on hold that have no day ahead of them',
  responses: {
    200: { description: 'Worst first', ...asJson(z.array(uncoveredHold)) },
  },
});

export function createRankingRoutes() {
  const routes = newRoutes();
  const [answerRanking, answerOutlook] = [createSharedAnswer(), createSharedAnswer()];
  routes.openapi(getRanking, (c) => {
    const query = c.req.valid('query');
    return answerRanking(c, query, () => listRanking(c.var.context, query));
  });
  routes.openapi(getOutlook, (c) => {
    const query = c.req.valid('query');
    return answerOutlook(c, query, () => lookAhead(c.var.context, query));
  });
  routes.openapi(getCsv, async (c) =>
    answerCsv(c, 'inspection-list', await rankingAsCsv(c.var.context, c.req.valid('query'))),
  );
  routes.openapi(getHolds, async (c) => c.json(await listUncoveredHolds(c.var.context), 200));
  routes.openapi(getUnits, async (c) => c.json(await listUnits(c.var.context, c.req.valid('query')), 200));
  routes.openapi(getExplanation, async (c) =>
    c.json(await explainRank(c.var.context, c.req.valid('query')), 200),
  );
  return routes;
}
