import { z } from 'zod';
import { checkStorage } from '#server/services/storage/check-storage.ts';
import type { RouteDeps } from './deps.ts';
import { newCall } from './new-call.ts';
import { newRoutes } from './new-routes.ts';

const health = z.object({ status: z.enum(['ok', 'unavailable']) }).meta({ id: 'Health' });
const answer = (description: string) => ({
  description,
  content: { 'application/json': { schema: health } },
});

const live = newCall('anyone', {
  method: 'get',
  path: '/health/live',
  tags: ['Running it'],
  summary: 'Whether the process runs',
  responses: { 200: answer('It runs') },
});

const ready = newCall('anyone', {
  method: 'get',
  path: '/health/ready',
  tags: ['Running it'],
  summary: 'Whether requests can be served: the database answers',
  responses: { 200: answer('It can'), 503: answer('The database does not answer') },
});

const metrics = newCall('anyone', {
  method: 'get',
  path: '/metrics',
  tags: ['Running it'],
  summary: 'Figures in the Prometheus text format',
  responses: {
    200: { description: 'Figures', content: { 'text/plain': { schema: z.string() } } },
  },
});

/** Open to all: a load balancer has no key, and nothing of a fleet is told. */
export function createHealthRoutes(deps: Pick<RouteDeps, 'context' | 'metrics'>) {
  return newRoutes()
    .openapi(live, (c) => c.json({ status: 'ok' as const }, 200, noStore))
    .openapi(ready, async (c) =>
      (await checkStorage(deps.context))
        ? c.json({ status: 'ok' as const }, 200, noStore)
        : c.json({ status: 'unavailable' as const }, 503, noStore),
    )
    .openapi(metrics, async (c) => {
      const { registry } = deps.metrics;
      return c.text(await registry.metrics(), 200, { 'Content-Type': registry.contentType, ...noStore });
    });
}

const noStore = { 'Cache-Control': 'no-store' };
