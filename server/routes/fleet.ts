import { z } from 'zod';
import {
  depotInput,
  lifeInput,
  platformChange,
  platformInput,
  setUpReply,
  vehicleInput,
} from '#server/contract/fleet.ts';
import { codeName, troubleCode, troubleCodeInput } from '#server/contract/trouble-codes.ts';
import { deleteCode } from '#server/services/codes/delete-code.ts';
import { listCodes } from '#server/services/codes/list-codes.ts';
import { setUpCodes } from '#server/services/codes/set-up-codes.ts';
import type { Context as ServiceContext } from '#server/services/context.ts';
import { listDepots, listPlatforms } from '#server/services/fleet/list-fleet.ts';
import type { SetUpOptions, SetUpOutcome } from '#server/services/fleet/set-up.ts';
import { setUpDepots } from '#server/services/fleet/set-up-depots.ts';
import { setUpLives } from '#server/services/fleet/set-up-lives.ts';
import { setUpPlatforms } from '#server/services/fleet/set-up-platforms.ts';
import { setUpVehicles } from '#server/services/fleet/set-up-vehicles.ts';
import type { RouteDeps } from './deps.ts';
import { newCall } from './new-call.ts';
import { newRoutes, problems } from './new-routes.ts';
import { readBody } from './read-body.ts';
import { dryRunQuery, readDryRun } from './read-dry-run.ts';

const setUp = (
  access: 'setUp' | 'plan',
  path: string,
  what: string,
  schema: z.ZodType,
  description: string,
) =>
  newCall(access, {
    method: 'post',
    path,
    summary: `Create or change ${what}`,
    description: `One object or an array, all or nothing. Fields left out stay as they are. ${description}`,
    request: {
      query: dryRunQuery,
      body: {
        required: true,
        content: { 'application/json': { schema: z.union([schema, z.array(schema)]) } },
      },
    },
    responses: {
      200: { description: 'What it came to', content: { 'application/json': { schema: setUpReply } } },
      ...problems(400, 409, 413, 415, 503),
    },
  });

const list = (path: string, what: string, schema: z.ZodType) =>
  newCall('readNames', {
    method: 'get',
    path,
    summary: `List ${what}`,
    responses: {
      200: {
        description: `All ${what}, in order`,
        content: { 'application/json': { schema: z.array(schema) } },
      },
    },
  });

const setUps = [
  {
    route: setUp('setUp', '/api/platforms', 'platforms', platformChange, 'Keyed by id.'),
    service: setUpPlatforms,
  },
  {
    route: setUp(
      'setUp',
      '/api/depots',
      'depots',
      depotInput,
      'Keyed by id. Bookings keep their time of day where the time zone changes; 409 where two of them would then be in one bay at once.',
    ),
    service: setUpDepots,
  },
  {
    route: setUp(
      'plan',
      '/api/vehicles',
      'vehicles',
      vehicleInput,
      'Keyed by id; depot and platform must exist.',
    ),
    service: setUpVehicles,
  },
  {
    route: setUp(
      'plan',
      '/api/lives',
      'converter lives',
      lifeInput,
      'Keyed by vehicle and fitted_km. An unknown vehicle is created. A life without an end ends where the next begins.',
    ),
    service: setUpLives,
  },
  {
    route: setUp(
      'setUp',
      '/api/codes',
      'trouble codes',
      troubleCodeInput,
      'Keyed by code, in any spelling. Vehicles that have sent one are assessed again.',
    ),
    service: setUpCodes,
  },
];

const removeCode = newCall('setUp', {
  method: 'delete',
  path: '/api/codes/{code}',
  summary: 'Take a trouble code off the list',
  request: { params: z.object({ code: codeName }) },
  responses: { 204: { description: 'It is gone' }, ...problems(400, 404, 503) },
});

/** The services check each element, so that an error names it; the document has the same schemas. */
export function createFleetRoutes({ assessment }: RouteDeps) {
  const routes = newRoutes();
  for (const { route, service } of setUps) {
    routes.openAPIRegistry.registerPath(route);
    routes.post(route.path, async (c) => {
      const options = { dryRun: readDryRun(c.req.query('dry_run')) };
      return c.json(await answer(c.var.context, service, await readBody(c), options), 200);
    });
  }
  routes.openapi(list('/api/platforms', 'platforms', platformInput), async (c) =>
    c.json(await listPlatforms(c.var.context), 200),
  );
  routes.openapi(list('/api/depots', 'depots', depotInput), async (c) =>
    c.json(await listDepots(c.var.context), 200),
  );
  routes.openapi(list('/api/codes', 'trouble codes', troubleCode), async (c) =>
    c.json(await listCodes(c.var.context), 200),
  );
  routes.openapi(removeCode, async (c) => {
    await deleteCode(c.var.context, c.req.valid('param').code);
    assessment.nudge();
    return c.body(null, 204);
  });

  async function answer(
    context: ServiceContext,
    service: (context: ServiceContext, body: unknown, options: SetUpOptions) => Promise<SetUpOutcome>,
    body: unknown,
    options: SetUpOptions,
  ) {
    const { reply } = await service(context, body, options);
    if (options.dryRun !== true && reply.created + reply.changed > 0) assessment.nudge();
    return reply;
  }

  return routes;
}
