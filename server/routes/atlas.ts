import { z } from 'zod';
import { atlasQuery, atlasReply } from '#server/contract/atlas.ts';
import { NO_PLATFORM_ID } from '#server/contract/movement.ts';
import { plainText } from '#server/contract/readings.ts';
import { getAtlas } from '#server/services/atlas/get-atlas.ts';
import { newCall } from './new-call.ts';
import { newRoutes, problems } from './new-routes.ts';

const atlas = newCall('readFleet', {
  method: 'get',
  path: '/api/platforms/{id}/atlas',
  summary: 'Slip of all vehicles of a platform against command and fluid temperature, one on top',
  request: {
    params: z.object({
      id: plainText.max(64).meta({
        description: `id of the platform; ${NO_PLATFORM_ID} for the vehicles without one`,
      }),
    }),
    query: atlasQuery,
  },
  responses: {
    200: {
      description: 'Counts, quantiles, and the stretches of the vehicle asked for',
      content: { 'application/json': { schema: atlasReply } },
    },
    ...problems(400, 404),
  },
});

export function createAtlasRoutes() {
  const routes = newRoutes();
  routes.openapi(atlas, async (c) => {
    const { days, vehicle } = c.req.valid('query');
    return c.json(await getAtlas(c.var.context, { platform: c.req.valid('param').id, days, vehicle }), 200);
  });
  return routes;
}
