import { z } from 'zod';
import { replay, replayList, replayPostQuery, replayRequest } from '#server/contract/replay.ts';
import { SlipdriftError } from '#server/errors.ts';
import { askReplay } from '#server/services/replay/ask-replay.ts';
import { awaitReplay } from '#server/services/replay/await-replay.ts';
import { cameAsCsv, needlessAsCsv } from '#server/services/replay/replay-as-csv.ts';
import { dropReplay, getReplay, listReplays } from '#server/services/replay/stored-replay.ts';
import { answerCsv, csvAnswer } from './answer-csv.ts';
import type { RouteDeps } from './deps.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes, problems } from './new-routes.ts';

const params = z.object({ id: z.coerce.number().int().min(1).max(Number.MAX_SAFE_INTEGER) });

const ask = newCall('analyse', {
  method: 'post',
  path: '/api/analysis/replay',
  summary: 'Run a past period again, day by day, to see what the list would have said then',
  description:
    'Waits up to ten minutes for the result; `?wait=0` answers at once, and so does 202 after ten minutes: ask for the replay under its id. One is run at a time, the others wait. Only vehicles that you may see are looked at. 409 says that it was cancelled, or broke off, while you waited.',
  request: { query: replayPostQuery, body: { required: true, ...asJson(replayRequest) } },
  responses: {
    200: { description: 'The replay with its result', ...asJson(replay) },
    202: { description: 'Not done yet', ...asJson(replay) },
    ...problems(400, 409, 503),
  },
});
const list = newCall('readFleet', {
  method: 'get',
  path: '/api/analysis/replays',
  summary: 'The newest 50 replays',
  description: 'Those that you asked for; people and keys for all depots have those of everybody.',
  responses: { 200: { description: 'Newest first', ...asJson(replayList) } },
});
const find = newCall('readFleet', {
  method: 'get',
  path: '/api/analysis/replays/{id}',
  summary: 'One replay, with its result once it is done',
  request: { params },
  responses: { 200: { description: 'The replay', ...asJson(replay) }, ...problems(400, 404) },
});
const drop = newCall('analyse', {
  method: 'delete',
  path: '/api/analysis/replays/{id}',
  summary: 'Cancel a replay that waits or is run; forget one that has ended',
  description: 'Whoever asked for it, admins and keys.',
  request: { params },
  responses: { 204: { description: 'Done' }, ...problems(400, 404) },
});
const came = newCall('readFleet', {
  method: 'get',
  path: '/api/analysis/replays/{id}/came.csv',
  summary: 'Failures of the period as CSV, with the notice that was given',
  request: { params },
  responses: { 200: csvAnswer, ...problems(400, 404, 409) },
});
const needless = newCall('readFleet', {
  method: 'get',
  path: '/api/analysis/replays/{id}/needless.csv',
  summary: 'What the list asked for in vain, as CSV',
  request: { params },
  responses: { 200: csvAnswer, ...problems(400, 404, 409) },
});

export function createReplayRoutes({ replays }: Pick<RouteDeps, 'replays'>) {
  const routes = newRoutes();
  routes.openapi(ask, async (c) => {
    const id = await askReplay(c.var.context, c.req.valid('json'));
    replays.nudge();
    if (c.req.valid('query').wait === '0') return c.json(await getReplay(c.var.context, id), 202);
    const found = await awaitReplay(c.var.context, id, c.req.raw.signal);
    if (found.state === 'done') return c.json(found, 200);
    if (found.state === 'waiting' || found.state === 'running') return c.json(found, 202);
    throw new SlipdriftError('conflict', found.error ?? `Replay ${id} was cancelled. It has no result.`);
  });
  routes.openapi(list, async (c) => c.json(await listReplays(c.var.context), 200));
  routes.openapi(find, async (c) => c.json(await getReplay(c.var.context, c.req.valid('param').id), 200));
  routes.openapi(drop, async (c) => {
    await dropReplay(c.var.context, c.req.valid('param').id);
    replays.nudge();
    return c.body(null, 204);
  });
  routes.openapi(came, async (c) =>
    answerCsv(c, 'replay-came', await cameAsCsv(c.var.context, c.req.valid('param').id)),
  );
  routes.openapi(needless, async (c) =>
    answerCsv(c, 'replay-needless', await needlessAsCsv(c.var.context, c.req.valid('param').id)),
  );
  return routes;
}
