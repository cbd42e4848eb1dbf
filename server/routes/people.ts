import type { Context } from 'hono';
import { z } from 'zod';
import { invitation, listedPerson, offeredAddress, personChange } from '#server/contract/people.ts';
import {
  changePerson,
  invitePerson,
  offerAddress,
  signOutPerson,
} from '#server/services/people/change-people.ts';
import { listPeople } from '#server/services/people/list-people.ts';
import type { RouteDeps } from './deps.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes, problems } from './new-routes.ts';

const params = z.object({ id: z.string().max(64) });
const offered = { description: 'The one-time address', ...asJson(offeredAddress) };

const list = newCall('administer', {
  method: 'get',
  path: '/api/people',
  summary: 'Everybody who may sign in, or might',
  responses: { 200: { description: 'By name', ...asJson(z.array(listedPerson)) } },
});
const invite = newCall('administer', {
  method: 'post',
  path: '/api/people',
  summary: 'Add a person, and make the one-time address for a password',
  request: { body: { required: true, ...asJson(invitation) } },
  responses: { 200: offered, ...problems(400, 409) },
});
const change = newCall('administer', {
  method: 'patch',
  path: '/api/people/{id}',
  summary: 'Change what a person is and may do',
  request: { params, body: { required: true, ...asJson(personChange) } },
  responses: { 200: { description: 'As changed', ...asJson(listedPerson) }, ...problems(400, 404, 409) },
});
const address = newCall('administer', {
  method: 'post',
  path: '/api/people/{id}/address',
  summary: 'Make another one-time address: for the first password, or a new one',
  request: { params },
  responses: { 200: offered, ...problems(404, 409) },
});
const signOut = newCall('administer', {
  method: 'delete',
  path: '/api/people/{id}/sessions',
  summary: 'Sign a person out everywhere',
  request: { params },
  responses: { 204: { description: 'Signed out' }, ...problems(404) },
});

export function createPeopleRoutes({ people: { library, publicUrl } }: RouteDeps) {
  const routes = newRoutes();
  const origin = (c: Context) => publicUrl ?? new URL(c.req.url).origin;
  routes.openapi(list, async (c) => c.json(await listPeople(c.var.context), 200));
  routes.openapi(invite, async (c) =>
    c.json(await invitePerson(c.var.context, library, c.req.valid('json'), origin(c)), 200),
  );
  routes.openapi(change, async (c) =>
    c.json(await changePerson(c.var.context, c.req.valid('param').id, c.req.valid('json')), 200),
  );
  routes.openapi(address, async (c) =>
    c.json(await offerAddress(c.var.context, library, c.req.valid('param').id, origin(c)), 200),
  );
  routes.openapi(signOut, async (c) => {
    await signOutPerson(c.var.context, c.req.valid('param').id);
    return c.body(null, 204);
  });
  return routes;
}
