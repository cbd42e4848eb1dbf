import { z } from 'zod';
import { receipt } from '#server/contract/receipts.ts';
import { findReceipt } from '#server/services/intake/find-receipt.ts';
import { newCall } from './new-call.ts';
import { newRoutes, problems } from './new-routes.ts';

const getReceipt = newCall('readIntake', {
  method: 'get',
  path: '/api/receipts/{id}',
  summary: 'What became of a delivery, with its refused lines',
  request: {
    params: z.object({ id: z.guid({ error: 'must be the id of a receipt' }) }),
    query: z.object({
      limit: z.coerce.number().int().min(1).max(1000).default(100),
      offset: z.coerce.number().int().min(0).max(2_000_000_000).default(0),
    }),
  },
  responses: {
    200: { description: 'The receipt', content: { 'application/json': { schema: receipt } } },
    ...problems(400, 404),
  },
});

export function createReceiptRoutes() {
  const routes = newRoutes();
  routes.openapi(getReceipt, async (c) => {
    const { id } = c.req.valid('param');
    return c.json(await findReceipt(c.var.context, id, c.req.valid('query')), 200);
  });
  return routes;
}
