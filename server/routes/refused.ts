import { z } from 'zod';
import {
  correction,
  faults,
  faultsQuery,
  keptLines,
  letIn,
  lineStateChange,
  lineStateReply,
  refusedLinesQuery,
  ruleReply,
  ruleRequest,
} from '#server/contract/intake.ts';
import { applyRule } from '#server/services/intake-desk/apply-rule.ts';
import { changeLineStates } from '#server/services/intake-desk/change-line-states.ts';
import { correctLine } from '#server/services/intake-desk/correct-line.ts';
import { listFaults } from '#server/services/intake-desk/list-faults.ts';
import { listKeptLines } from '#server/services/intake-desk/list-kept-lines.ts';
import type { RouteDeps } from './deps.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes, problems } from './new-routes.ts';

const groups = newCall('readIntake', {
  method: 'get',
  path: '/api/refused',
  summary: 'Refused lines by what is wrong with them',
  request: { query: faultsQuery },
  responses: { 200: { description: 'Most lines first', ...asJson(faults) }, ...problems(400) },
});

const list = newCall('readIntake', {
  method: 'get',
  path: '/api/refused/lines',
  summary: 'Refused lines of a fault, a receipt or a sender',
  request: { query: refusedLinesQuery },
  responses: { 200: { description: 'Oldest first', ...asJson(keptLines) }, ...problems(400) },
});

const state = newCall('plan', {
  method: 'post',
  path: '/api/refused/state',
  summary: 'Lay refused lines aside, or open them again',
  description: 'By their ids, or all with a fault. For people of all depots. Nothing is deleted.',
  request: { body: { required: true, ...asJson(lineStateChange) } },
  responses: { 200: { description: 'How many changed', ...asJson(lineStateReply) }, ...problems(400) },
});

const rule = newCall('plan', {
  method: 'post',
  path: '/api/refused/rule',
  summary: 'Let all refused lines with a fault in, by a rule',
  description:
    'With `dry_run`, which is the default, only says what that comes to. Lines that are no readings by the rule stay open. For people of all depots.',
  request: { body: { required: true, ...asJson(ruleRequest) } },
  responses: {
    200: { description: 'What it comes to', ...asJson(ruleReply) },
    ...problems(400, 404, 503, 507),
  },
});

const correct = newCall('plan', {
  method: 'post',
  path: '/api/refused/{id}',
  summary: 'Let one refused line in, corrected',
  description:
    'As a line, read as its delivery was, or as a reading. What is still wrong is answered with 400, and the line stays open. For people of all depots.',
  request: {
    params: z.object({ id: z.coerce.number().int().min(1).max(Number.MAX_SAFE_INTEGER) }),
    body: { required: true, ...asJson(correction) },
  },
  responses: {
    200: { description: 'It is stored, under a receipt of its own', ...asJson(letIn) },
    ...problems(400, 404, 409, 503, 507),
  },
});

export function createRefusedRoutes({ assessment, metrics }: RouteDeps) {
  const routes = newRoutes();
  const count = ({ stored, duplicate }: { stored: number; duplicate: number }) => {
    for (const [fate, n] of Object.entries({ stored, duplicate })) metrics.readings.inc({ fate }, n);
    if (stored > 0) assessment.nudge();
  };
  routes.openapi(groups, async (c) => c.json(await listFaults(c.var.context, c.req.valid('query')), 200));
  routes.openapi(list, async (c) => c.json(await listKeptLines(c.var.context, c.req.valid('query')), 200));
  routes.openapi(state, async (c) => c.json(await changeLineStates(c.var.context, c.req.valid('json')), 200));
  routes.openapi(rule, async (c) => {
    const reply = await applyRule(c.var.context, c.req.valid('json'));
    count(reply);
    return c.json(reply, 200);
  });
  routes.openapi(correct, async (c) => {
    const reply = await correctLine(c.var.context, c.req.valid('param').id, c.req.valid('json'));
    count(reply);
    return c.json(reply, 200);
  });
  return routes;
}
