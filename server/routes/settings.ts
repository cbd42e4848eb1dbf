import { depotInput } from '#server/contract/fleet.ts';
import { depotPreview, previewReply, previewRequest, thresholds } from '#server/contract/settings.ts';
import { previewDepot } from '#server/services/settings/preview-depot.ts';
import { readThresholds } from '#server/services/settings/read-thresholds.ts';
import { setThresholds } from '#server/services/settings/set-thresholds.ts';
import type { RouteDeps } from './deps.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes, problems } from './new-routes.ts';

const getThresholds = newCall('readFleet', {
  method: 'get',
  path: '/api/settings/thresholds',
  summary: 'Where the grades begin',
  responses: { 200: { description: 'For the whole fleet', ...asJson(thresholds) } },
});

const putThresholds = newCall('setUp', {
  method: 'put',
  path: '/api/settings/thresholds',
  summary: 'Change where the grades begin',
  description: 'What is left out is as usual. The fleet is ranked again within seconds.',
  request: { body: { required: true, ...asJson(thresholds) } },
  responses: { 200: { description: 'As stored', ...asJson(thresholds) }, ...problems(400, 413, 415, 503) },
});

const postPreview = newCall('setUp', {
  method: 'post',
  path: '/api/settings/preview',
  summary: 'What the list would be with other costs, thresholds, limit or life',
  description:
    'Stores nothing. Costs and thresholds rank the stored assessments again. A changed limit or life has every vehicle of the platform assessed anew, which takes some seconds a hundred vehicles: while that goes on the answer has no `preview` but how far it is; ask again with the same body. Work for which nobody asks any more is dropped.',
  request: { body: { required: true, ...asJson(previewRequest) } },
  responses: {
    200: { description: 'The effect, or how far it is', ...asJson(previewReply) },
    ...problems(400, 404, 413, 415, 503),
  },
});

const postDepotPreview = newCall('setUp', {
  method: 'post',
  path: '/api/settings/depot-preview',
  summary: 'Which open bookings would not fit a changed depot any more',
  description:
    'Takes what POST /api/depots takes, one depot, and stores nothing. Fields left out stay as they are.',
  request: { body: { required: true, ...asJson(depotInput) } },
  responses: {
    200: { description: 'Bookings that would not fit', ...asJson(depotPreview) },
    ...problems(400, 413, 415, 503),
  },
});

export function createSettingsRoutes({ assessment, previews }: Pick<RouteDeps, 'assessment' | 'previews'>) {
  const routes = newRoutes();
  routes.openapi(getThresholds, async (c) => c.json(await readThresholds(c.var.context.db), 200));
  routes.openapi(putThresholds, async (c) => {
    const stored = await setThresholds(c.var.context, c.req.valid('json'));
    assessment.nudge();
    return c.json(stored, 200);
  });
  routes.openapi(postPreview, async (c) =>
    c.json(await previews.ask(c.var.context.actor, c.req.valid('json'), c.req.raw.signal), 200),
  );
  routes.openapi(postDepotPreview, async (c) =>
    // As it was sent: what is left out stays as it is, and is no default.
    c.json(await previewDepot(c.var.context, await c.req.json()), 200),
  );
  return routes;
}
