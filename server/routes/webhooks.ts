import { z } from 'zod';
import {
  newWebhook,
  webhook,
  webhookChange,
  webhookInput,
  webhookPost,
  webhookPosts,
  webhookPostsQuery,
} from '#server/contract/webhooks.ts';
import { listPosts, listWebhooks } from '#server/services/webhooks/list-webhooks.ts';
import { sendAgain, sendTrial } from '#server/services/webhooks/send-now.ts';
import { addWebhook, changeWebhook, endWebhook } from '#server/services/webhooks/set-up-webhooks.ts';
import type { RouteDeps } from './deps.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes, problems } from './new-routes.ts';

const params = z.object({ id: z.coerce.number().int().min(1).max(2_147_483_647) });
const postParams = params.extend({ post: z.uuid() });

const list = newCall('administer', {
  method: 'get',
  path: '/api/webhooks',
  summary: 'Webhooks: programs that are told when a grade worsens',
  responses: { 200: { description: 'Those in use first', ...asJson(z.array(webhook)) } },
});
const add = newCall('administer', {
  method: 'post',
  path: '/api/webhooks',
  summary: 'Make a webhook; the secret of its signatures is shown this once',
  request: { body: { required: true, ...asJson(webhookInput) } },
  responses: { 200: { description: 'The webhook', ...asJson(newWebhook) }, ...problems(400) },
});
const change = newCall('administer', {
  method: 'patch',
  path: '/api/webhooks/{id}',
  summary: 'Change or pause a webhook, or let it go on',
  request: { params, body: { required: true, ...asJson(webhookChange) } },
  responses: {
    200: { description: 'As it stands in the list', ...asJson(webhook) },
    ...problems(400, 404, 409),
  },
});
const end = newCall('administer', {
  method: 'delete',
  path: '/api/webhooks/{id}',
  summary: 'End a webhook for good; what waits is not sent',
  request: { params },
  responses: {
    200: { description: 'As it stands in the list', ...asJson(webhook) },
    ...problems(400, 404, 409),
  },
});
const trial = newCall('administer', {
  method: 'post',
  path: '/api/webhooks/{id}/trial',
  summary: 'Send a trial event, once, and answer how it went',
  request: { params },
  responses: { 200: { description: 'The event', ...asJson(webhookPost) }, ...problems(400, 404, 409) },
});
const posts = newCall('administer', {
  method: 'get',
  path: '/api/webhooks/{id}/posts',
  summary: 'What a webhook was told, and how it went',
  request: { params, query: webhookPostsQuery },
  responses: { 200: { description: 'Newest first', ...asJson(webhookPosts) }, ...problems(400, 404) },
});
const again = newCall('administer', {
  method: 'post',
  path: '/api/webhooks/{id}/posts/{post}/again',
  summary: 'Try an event again now',
  description: 'One that was confirmed is never sent again.',
  request: { params: postParams },
  responses: { 200: { description: 'The event', ...asJson(webhookPost) }, ...problems(400, 404, 409) },
});

export function createWebhookRoutes({ people: { publicUrl } }: RouteDeps) {
  const routes = newRoutes();
  routes.openapi(list, async (c) => c.json(await listWebhooks(c.var.context), 200));
  routes.openapi(add, async (c) => c.json(await addWebhook(c.var.context, c.req.valid('json')), 200));
  routes.openapi(change, async (c) =>
    c.json(await changeWebhook(c.var.context, c.req.valid('param').id, c.req.valid('json')), 200),
  );
  routes.openapi(end, async (c) => c.json(await endWebhook(c.var.context, c.req.valid('param').id), 200));
  routes.openapi(trial, async (c) =>
    c.json(await sendTrial(c.var.context, c.req.valid('param').id, publicUrl), 200),
  );
  routes.openapi(posts, async (c) =>
    c.json(await listPosts(c.var.context, c.req.valid('param').id, c.req.valid('query')), 200),
  );
  routes.openapi(again, async (c) => {
    const { id, post } = c.req.valid('param');
    return c.json(await sendAgain(c.var.context, id, post, publicUrl), 200);
  });
  return routes;
}
