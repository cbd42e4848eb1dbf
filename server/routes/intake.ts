import { z } from 'zod';
import {
  gateways,
  odometerAnswerInput,
  odometerQuestions,
  odometerQuestionsQuery,
  receipts,
  receiptsQuery,
  setAsideShares,
  throughput,
  throughputQuery,
  toComplete,
  toCompleteQuery,
} from '#server/contract/intake.ts';
import { answerOdometer } from '#server/services/intake-desk/answer-odometer.ts';
import { getSetAsideShares } from '#server/services/intake-desk/get-set-aside-shares.ts';
import { getThroughput } from '#server/services/intake-desk/get-throughput.ts';
import { listGateways } from '#server/services/intake-desk/list-gateways.ts';
import { listOdometerQuestions } from '#server/services/intake-desk/list-odometer-questions.ts';
import { listReceipts } from '#server/services/intake-desk/list-receipts.ts';
import { listToComplete } from '#server/services/intake-desk/list-to-complete.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes, problems } from './new-routes.ts';

const read = <const P extends string, Q extends z.ZodObject, A extends z.ZodType>(
  path: P,
  summary: string,
  query: Q,
  answer: A,
) =>
  newCall('readIntake', {
    method: 'get',
    path,
    summary,
    request: { query },
    responses: { 200: { description: 'As it stands now', ...asJson(answer) }, ...problems(400) },
  });

const deliveries = read('/api/receipts', 'Deliveries, newest first', receiptsQuery, receipts);
const lines = read('/api/intake/throughput', 'Lines by hour and by day', throughputQuery, throughput);
const senders = read(
  '/api/gateways',
  'Who brings readings, how often, and who has gone quiet',
  z.object({}),
  gateways,
);
const shares = read(
  '/api/gateways/set-aside',
  'Readings set aside by month, reason and gateway',
  z.object({}),
  setAsideShares,
);
const incomplete = read(
  '/api/intake/vehicles',
  'Vehicles of which something is not known yet',
  toCompleteQuery,
  toComplete,
);
const questions = read(
  '/api/odometer-questions',
  'Jumps of odometers, to be explained or explained',
  odometerQuestionsQuery,
  odometerQuestions,
);

const answer = newCall('plan', {
  method: 'put',
  path: '/api/odometer-answers',
  summary: 'Say what a jump of an odometer was',
  description:
    'For people of all depots. The answer follows a jump that late readings move by less than a day.',
  request: { body: { required: true, ...asJson(odometerAnswerInput) } },
  responses: { 204: { description: 'It is kept' }, ...problems(400, 404) },
});

export function createIntakeRoutes() {
  const routes = newRoutes();
  routes.openapi(deliveries, async (c) =>
    c.json(await listReceipts(c.var.context, c.req.valid('query')), 200),
  );
  routes.openapi(lines, async (c) =>
    c.json(await getThroughput(c.var.context, c.req.valid('query').zone), 200),
  );
  routes.openapi(senders, async (c) => c.json(await listGateways(c.var.context), 200));
  routes.openapi(shares, async (c) => c.json(await getSetAsideShares(c.var.context), 200));
  routes.openapi(incomplete, async (c) =>
    c.json(await listToComplete(c.var.context, c.req.valid('query')), 200),
  );
  routes.openapi(questions, async (c) =>
    c.json(await listOdometerQuestions(c.var.context, c.req.valid('query')), 200),
  );
  routes.openapi(answer, async (c) => {
    await answerOdometer(c.var.context, c.req.valid('json'));
    return c.body(null, 204);
  });
  return routes;
}
