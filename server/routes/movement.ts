import { z } from 'zod';
import { NO_PLATFORM_ID, platformMovement, platformSummary } from '#server/contract/movement.ts';
import { plainText } from '#server/contract/readings.ts';
import { getMovement } from '#server/services/platforms/get-movement.ts';
import { listMovements } from '#server/services/platforms/list-movements.ts';
import { newCall } from './new-call.ts';
import { newRoutes, problems } from './new-routes.ts';

const list = newCall('readFleet', {
  method: 'get',
  path: '/api/movement',
  summary: 'Every platform in short: vehicles, limit and steps',
  responses: {
    200: {
      description: 'Platforms by name, then the vehicles without one',
      content: { 'application/json': { schema: z.array(platformSummary) } },
    },
  },
});

const one = newCall('readFleet', {
  method: 'get',
  path: '/api/platforms/{id}/movement',
  summary: 'What all vehicles of a platform did together',
  request: {
    params: z.object({
      id: plainText.max(64).meta({
        description: `id of the platform; ${NO_PLATFORM_ID} for the vehicles without one`,
      }),
    }),
  },
  responses: {
    200: { description: 'As last learned', content: { 'application/json': { schema: platformMovement } } },
    ...problems(400, 404),
  },
});

export function createMovementRoutes() {
  const routes = newRoutes();
  routes.openapi(list, async (c) => c.json(await listMovements(c.var.context), 200));
  routes.openapi(one, async (c) => c.json(await getMovement(c.var.context, c.req.valid('param').id), 200));
  return routes;
}
