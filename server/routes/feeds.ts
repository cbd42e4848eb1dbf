import type { Context } from 'hono';
import { z } from 'zod';
import { depotFeed, newDepotFeed } from '#server/contract/bookings.ts';
import { depotId } from '#server/contract/fleet.ts';
import { endFeed, getFeed, makeFeed } from '#server/services/feeds/change-feed.ts';
import { readFeed } from '#server/services/feeds/read-feed.ts';
import type { RouteDeps } from './deps.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes, problems } from './new-routes.ts';

const params = z.object({ id: depotId });

const find = newCall('plan', {
  method: 'get',
  path: '/api/depots/{id}/feed',
  summary: 'Whether calendars can fetch the bookings of a depot, and when one last did',
  request: { params },
  responses: {
    200: { description: 'The state of its address', ...asJson(depotFeed) },
    ...problems(400, 404),
  },
});
const make = newCall('plan', {
  method: 'post',
  path: '/api/depots/{id}/feed',
  summary: 'Make the secret address of the bookings of a depot, or another one, at which the one before ends',
  request: { params },
  responses: {
    200: { description: 'The address, this once', ...asJson(newDepotFeed) },
    ...problems(400, 404),
  },
});
const end = newCall('plan', {
  method: 'delete',
  path: '/api/depots/{id}/feed',
  summary: 'End the secret address of a depot',
  request: { params },
  responses: { 204: { description: 'It answers no more' }, ...problems(400, 404) },
});
const fetchFeed = newCall('anyone', {
  method: 'get',
  path: '/api/feeds/{file}',
  summary: 'The bookings of a depot for a calendar program',
  description:
    'The last part of the address is the secret with .ics behind it. Bookings and inspections from 30 days back on.',
  request: { params: z.object({ file: z.string() }) },
  responses: {
    200: { description: 'iCalendar, RFC 5545', content: { 'text/calendar': { schema: z.string() } } },
    ...problems(404),
  },
});

export function createFeedRoutes({ people: { publicUrl } }: RouteDeps) {
  const routes = newRoutes();
  const origin = (c: Context) => publicUrl ?? new URL(c.req.url).origin;
  routes.openapi(find, async (c) => c.json(await getFeed(c.var.context, c.req.valid('param').id), 200));
  routes.openapi(make, async (c) =>
    c.json(await makeFeed(c.var.context, c.req.valid('param').id, origin(c)), 200),
  );
  routes.openapi(end, async (c) => {
    await endFeed(c.var.context, c.req.valid('param').id);
    return c.body(null, 204);
  });
  routes.openapi(fetchFeed, async (c) => {
    const text = await readFeed(c.var.context, c.req.valid('param').file, publicUrl);
    c.header('Content-Disposition', 'inline; filename="slipdrift-bookings.ics"');
    return c.body(text, 200, { 'Content-Type': 'text/calendar; charset=utf-8' });
  });
  return routes;
}
