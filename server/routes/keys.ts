import { z } from 'zod';
import { accessKey, keyInput, newKey } from '#server/contract/keys.ts';
import { addKey, listKeys, revokeKey } from '#server/services/keys/set-up-keys.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes, problems } from './new-routes.ts';

const list = newCall('administer', {
  method: 'get',
  path: '/api/keys',
  summary: 'Keys of machines',
  responses: { 200: { description: 'Those in use first', ...asJson(z.array(accessKey)) } },
});
const add = newCall('administer', {
  method: 'post',
  path: '/api/keys',
  summary: 'Make a key; its text is shown this once',
  request: { body: { required: true, ...asJson(keyInput) } },
  responses: { 200: { description: 'The key', ...asJson(newKey) }, ...problems(400) },
});
const revoke = newCall('administer', {
  method: 'delete',
  path: '/api/keys/{id}',
  summary: 'Revoke a key, at once and for good',
  request: { params: z.object({ id: z.string().max(64) }) },
  responses: { 200: { description: 'As it stands in the list', ...asJson(accessKey) }, ...problems(404) },
});

export function createKeyRoutes() {
  const routes = newRoutes();
  routes.openapi(list, async (c) => c.json(await listKeys(c.var.context), 200));
  routes.openapi(add, async (c) => c.json(await addKey(c.var.context, c.req.valid('json')), 200));
  routes.openapi(revoke, async (c) => c.json(await revokeKey(c.var.context, c.req.valid('param').id), 200));
  return routes;
}
