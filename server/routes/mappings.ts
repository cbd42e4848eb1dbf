import { z } from 'zod';
import { mapping, mappingName, storedMapping } from '#server/contract/mappings.ts';
import { deleteMapping, listMappings, saveMapping } from '#server/services/mappings/mappings.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes, problems } from './new-routes.ts';

const params = z.object({ name: mappingName });

const list = newCall('readIntake', {
  method: 'get',
  path: '/api/mappings',
  summary: 'How files of other forms are read',
  responses: { 200: { description: 'By name', ...asJson(z.array(storedMapping)) } },
});

const save = newCall('plan', {
  method: 'put',
  path: '/api/mappings/{name}',
  summary: 'Save how the files of a sender are read',
  description: 'One of the same name is replaced. POST /api/readings?mapping=<name> reads by it.',
  request: { params, body: { required: true, ...asJson(mapping) } },
  responses: { 200: { description: 'As it is saved', ...asJson(storedMapping) }, ...problems(400, 409) },
});

const remove = newCall('plan', {
  method: 'delete',
  path: '/api/mappings/{name}',
  summary: 'Delete how the files of a sender are read',
  request: { params },
  responses: { 204: { description: 'Deleted' }, ...problems(400, 404) },
});

export function createMappingRoutes() {
  const routes = newRoutes();
  routes.openapi(list, async (c) => c.json(await listMappings(c.var.context), 200));
  routes.openapi(save, async (c) =>
    c.json(await saveMapping(c.var.context, c.req.valid('param').name, c.req.valid('json')), 200),
  );
  routes.openapi(remove, async (c) => {
    await deleteMapping(c.var.context, c.req.valid('param').name);
    return c.body(null, 204);
  });
  return routes;
}
