import { z } from 'zod';
import { savedFilter, savedFilterRequest } from '#server/contract/ranking.ts';
import {
  deleteSavedFilter,
  listSavedFilters,
  saveFilter,
} from '#server/services/saved-filters/saved-filters.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes, problems } from './new-routes.ts';

const list = newCall('officeSelf', {
  method: 'get',
  path: '/api/saved-filters',
  summary: 'Your saved filters of the inspection list',
  responses: { 200: { description: 'By name', ...asJson(z.array(savedFilter)) } },
});

const save = newCall('officeSelf', {
  method: 'post',
  path: '/api/saved-filters',
  summary: 'Keep a filter of the inspection list under a name',
  request: { body: { required: true, ...asJson(savedFilterRequest) } },
  responses: { 200: { description: 'Kept', ...asJson(savedFilter) }, ...problems(400, 409) },
});

const remove = newCall('officeSelf', {
  method: 'delete',
  path: '/api/saved-filters/{id}',
  summary: 'Delete one of your saved filters',
  request: { params: z.object({ id: z.coerce.number().int().min(1).max(Number.MAX_SAFE_INTEGER) }) },
  responses: { 204: { description: 'Deleted' }, ...problems(400, 404) },
});

export function createSavedFilterRoutes() {
  const routes = newRoutes();
  routes.openapi(list, async (c) => c.json(await listSavedFilters(c.var.context), 200));
  routes.openapi(save, async (c) => c.json(await saveFilter(c.var.context, c.req.valid('json')), 200));
  routes.openapi(remove, async (c) => {
    await deleteSavedFilter(c.var.context, c.req.valid('param').id);
    return c.body(null, 204);
  });
  return routes;
}
