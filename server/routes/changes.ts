import { changes, changesQuery } from '#server/contract/changes.ts';
import { changesAsCsv } from '#server/services/changes/changes-as-csv.ts';
import { listChanges } from '#server/services/changes/list-changes.ts';
import { answerCsv, csvAnswer } from './answer-csv.ts';
import { newCall } from './new-call.ts';
import { newRoutes, problems } from './new-routes.ts';

const list = newCall('administer', {
  method: 'get',
  path: '/api/changes',
  summary: 'Who changed what, when, from where, before and after',
  request: { query: changesQuery },
  responses: {
    200: { description: 'Newest first', content: { 'application/json': { schema: changes } } },
    ...problems(400),
  },
});

const csv = newCall('administer', {
  method: 'get',
  path: '/api/changes.csv',
  summary: 'The same as CSV, all of it',
  request: { query: changesQuery.omit({ limit: true, before_id: true }) },
  responses: { 200: csvAnswer, ...problems(400) },
});

export function createChangeRoutes() {
  const routes = newRoutes();
  routes.openapi(list, async (c) => c.json(await listChanges(c.var.context, c.req.valid('query')), 200));
  routes.openapi(csv, async (c) =>
    answerCsv(c, 'changes', await changesAsCsv(c.var.context, c.req.valid('query'))),
  );
  return routes;
}
