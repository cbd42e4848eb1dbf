import { outlook, ranking, rankingQuery } from '#server/contract/ranking.ts';
import { listRanking } from '#server/services/inspection/list-ranking.ts';
import { lookAhead } from '#server/services/inspection/look-ahead.ts';
import { rankingAsCsv } from '#server/services/inspection/ranking-as-csv.ts';
import { answerCsv, csvAnswer } from './answer-csv.ts';
import { newCall } from './new-call.ts';
import { newRoutes, problems } from './new-routes.ts';

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
  request: { query: rankingQuery.pick({ depot: true, platform: true, grade: true, q: true }) },
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

export function createRankingRoutes() {
  const routes = newRoutes();
  routes.openapi(getRanking, async (c) =>
    c.json(await listRanking(c.var.context, c.req.valid('query')), 200),
  );
  routes.openapi(getOutlook, async (c) => c.json(await lookAhead(c.var.context, c.req.valid('query')), 200));
  routes.openapi(getCsv, async (c) =>
    answerCsv(c, 'inspection-list', await rankingAsCsv(c.var.context, c.req.valid('query'))),
  );
  return routes;
}
