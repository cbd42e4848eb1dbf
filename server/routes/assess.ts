import { assessReply } from '#server/contract/ranking.ts';
import type { RouteDeps } from './deps.ts';
import { newCall } from './new-call.ts';
import { newRoutes, problems } from './new-routes.ts';

const assess = newCall('plan', {
  method: 'post',
  path: '/api/assess',
  summary: 'Bring every assessment up to date and answer when done',
  responses: {
    200: { description: 'Done', content: { 'application/json': { schema: assessReply } } },
    ...problems(503),
  },
});

export function createAssessRoutes({ assessment }: Pick<RouteDeps, 'assessment'>) {
  const routes = newRoutes();
  routes.openapi(assess, async (c) => {
    const started = performance.now();
    const assessed = await assessment.assessNow();
    const seconds = Math.round(performance.now() - started) / 1000;
    return c.json({ assessed, as_of: c.var.context.now().toISOString(), seconds }, 200);
  });
  return routes;
}
