import { z } from 'zod';
import {
  workbenchSet,
  workbenchSetInput,
  workbenchSetLine,
  workbenchSets,
} from '#server/contract/workbench.ts';
import {
  deleteWorkbenchSet,
  getWorkbenchSet,
  keepWorkbenchSet,
  listWorkbenchSets,
} from '#server/services/workbench/workbench-sets.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes, problems } from './new-routes.ts';

const params = z.object({ id: z.coerce.number().int().min(1).max(Number.MAX_SAFE_INTEGER) });

const list = newCall('officeSelf', {
  method: 'get',
  path: '/api/workbench/sets',
  summary: 'Tables that you keep in the workbench',
  responses: { 200: { description: 'By name, without their text', ...asJson(workbenchSets) } },
});

const get = newCall('officeSelf', {
  method: 'get',
  path: '/api/workbench/sets/{id}',
  summary: 'One of your tables, with its text as it was pasted',
  request: { params },
  responses: { 200: { description: 'The table', ...asJson(workbenchSet) }, ...problems(400, 404) },
});

const keep = newCall('officeSelf', {
  method: 'post',
  path: '/api/workbench/sets',
  summary: 'Keep a table of the workbench under a name',
  description:
    'For yourself alone. A name that is taken is refused with 409 unless `replace` is true. The analyses themselves, `POST /api/analysis/trend` and `POST /api/analysis/lives`, store nothing.',
  request: { body: { required: true, ...asJson(workbenchSetInput) } },
  responses: { 200: { description: 'Kept', ...asJson(workbenchSetLine) }, ...problems(400, 409, 413) },
});

const remove = newCall('officeSelf', {
  method: 'delete',
  path: '/api/workbench/sets/{id}',
  summary: 'Delete one of your tables',
  request: { params },
  responses: { 204: { description: 'Deleted' }, ...problems(400, 404) },
});

export function createWorkbenchRoutes() {
  const routes = newRoutes();
  routes.openapi(list, async (c) => c.json({ sets: await listWorkbenchSets(c.var.context) }, 200));
  routes.openapi(get, async (c) =>
    c.json(await getWorkbenchSet(c.var.context, c.req.valid('param').id), 200),
  );
  routes.openapi(keep, async (c) => c.json(await keepWorkbenchSet(c.var.context, c.req.valid('json')), 200));
  routes.openapi(remove, async (c) => {
    await deleteWorkbenchSet(c.var.context, c.req.valid('param').id);
    return c.body(null, 204);
  });
  return routes;
}
