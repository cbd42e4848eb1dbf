import { z } from 'zod';
import { vehicleUnit } from '#server/contract/readings.ts';
import { atShop, shopRequest } from '#server/contract/vehicle.ts';
import { callBack, sendToShop } from '#server/services/shop/send-to-shop.ts';
import { newCall } from './new-call.ts';
import { newRoutes, problems } from './new-routes.ts';

const params = z.object({ id: vehicleUnit });

const send = newCall('plan', {
  method: 'put',
  path: '/api/vehicles/{id}/shop',
  summary: 'Send a vehicle to the shop of a depot, whose people then see it',
  request: { params, body: { required: true, content: { 'application/json': { schema: shopRequest } } } },
  responses: {
    200: { description: 'Sent', content: { 'application/json': { schema: atShop } } },
    ...problems(400, 404, 409),
  },
});

const back = newCall('plan', {
  method: 'delete',
  path: '/api/vehicles/{id}/shop',
  summary: 'Call a vehicle back from the shop, whose people then see it no more',
  request: { params },
  responses: { 204: { description: 'Called back' }, ...problems(404) },
});

export function createShopRoutes() {
  const routes = newRoutes();
  routes.openapi(send, async (c) =>
    c.json(await sendToShop(c.var.context, c.req.valid('param').id, c.req.valid('json')), 200),
  );
  routes.openapi(back, async (c) => {
    await callBack(c.var.context, c.req.valid('param').id);
    return c.body(null, 204);
  });
  return routes;
}
