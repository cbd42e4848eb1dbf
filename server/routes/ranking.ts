import { createRoute } from '@hono/zod-openapi';
import { outlook, ranking, rankingQuery } from '#server/contract/ranking.ts';
import { listRanking } from '#server/services/inspection/list-ranking.ts';
import { lookAhead } from '#server/services/inspection/look-ahead.ts';
import { newRoutes, problems } from './new-routes.ts';

const getRanking = createRoute({
  method: 'get',
  path: '/api/ranking',
  summary: 'The inspection list',
  request: { query: rankingQuery },
  responses: {
    200: { description: 'Rows in order', content: { 'application/json': { schema: ranking } } },
    ...problems(400, 401),
  },
});

const getOutlook = createRoute({
  method: 'get',
  path: '/api/ranking/outlook',
  summary: 'Vehicles by grade, and when the drifting ones reach their limits',
  request: { query: rankingQuery.pick({ depot: true, platform: true, grade: true, q: true }) },
  responses: {
    200: { description: 'Counts and weeks', content: { 'application/json': { schema: outlook } } },
    ...problems(400, 401),
  },
});

export function createRankingRoutes() {
  const routes = newRoutes();
  routes.openapi(getRanking, async (c) =>
    c.json(await listRanking(c.var.context, c.req.valid('query')), 200),
  );
  routes.openapi(getOutlook, async (c) => c.json(await lookAhead(c.var.context, c.req.valid('query')), 200));
  return routes;
}
