import { z } from 'zod';
import { CAN_LOG_TYPE } from '#server/contract/can-log.ts';
import { given } from '#server/contract/mappings.ts';
import { readingInput } from '#server/contract/readings.ts';
import { brokenDelivery, type DeliveryReply, deliveryReply } from '#server/contract/receipts.ts';
import { SlipdriftError, toProblem } from '#server/errors.ts';
import type { BodyFault } from '#server/services/intake/body-fault.ts';
import { type DeliveryOutcome, receiveDelivery } from '#server/services/intake/receive-delivery.ts';
import { findMapping } from '#server/services/mappings/mappings.ts';
import { requireAllDepots } from '#server/services/sight.ts';
import type { RouteDeps } from './deps.ts';
import { newCall } from './new-call.ts';
import { newRoutes, problems } from './new-routes.ts';
import { openBody } from './open-body.ts';
import { readDeliveryHeaders } from './read-delivery-headers.ts';
import { readGiven, readUnknownColumns, requireCsv } from './read-given.ts';

const broken = (description: string) => ({
  description,
  content: { 'application/problem+json': { schema: brokenDelivery } },
});

const postReadings = newCall('deliver', {
  method: 'post',
  path: '/api/readings',
  summary: 'Deliver readings',
  description:
    'Good lines are stored though others are refused; the answer comes after commit. The same delivery may be sent again: readings already there count as duplicates. The body may be gzip.',
  request: {
    headers: z.object({
      'idempotency-key': z.string().optional().meta({
        description: 'the same key with the same body brings the stored answer again',
      }),
      'content-encoding': z.enum(['gzip', 'identity']).optional(),
    }),
    query: given.extend({
      mapping: z.string().optional().meta({
        description: 'CSV of another form: name of the mapping that it is read by (GET /api/mappings)',
      }),
      unknown_columns: z.enum(['refuse', 'ignore']).optional().meta({
        description: 'CSV: what to do with columns of other names than ours; refuse, unless said',
      }),
    }),
    body: {
      required: true,
      content: {
        'application/json': {
          schema: z.union([z.array(readingInput), z.object({ readings: z.array(readingInput) })]),
        },
        'application/x-ndjson': {
          schema: z.string().meta({ description: 'one reading as a JSON object a line' }),
        },
        'text/csv': {
          schema: z.string().meta({
            description: 'a header line of the field names; codes separated by spaces or semicolons',
          }),
        },
        [CAN_LOG_TYPE]: {
          schema: z.string().meta({
            description:
              'a log of CAN frames, `(seconds.micros) interface ID#DATA` or as printed; a reading for each window',
          }),
        },
      },
    },
  },
  responses: {
    200: { description: 'Stored', content: { 'application/json': { schema: deliveryReply } } },
    400: broken('The body or its header line is at fault; `delivery` says what was stored before'),
    408: broken('Nothing more of the body came; `delivery` says what was stored before'),
    413: broken('The body passes the limit; `delivery` says what was stored before'),
    ...problems(409, 415, 422, 503, 507),
  },
});

/** The body is a stream: the route is registered for the document and checks nothing of it before the service does. */
export function createReadingRoutes({ assessment, metrics, maxBodyBytes, bodyIdleMs }: RouteDeps) {
  const routes = newRoutes();
  routes.openAPIRegistry.registerPath(postReadings);
  routes.post(postReadings.path, async (c) => {
    const { actor } = c.var.context;
    requireAllDepots(actor, 'Delivering readings');
    const body = openBody(c.req.raw.body, bodyIdleMs);
    const receive = async () => {
      const name = c.req.query('mapping');
      const headers = readDeliveryHeaders((one) => c.req.header(one), { anyCharset: name !== undefined });
      requireCsv(headers.format, name);
      const told = readGiven(c.req.query());
      return receiveDelivery(c.var.context, {
        ...headers,
        ignoreUnknownColumns: readUnknownColumns(c.req.query('unknown_columns')),
        mapping: name === undefined ? null : await findMapping(c.var.context, name),
        given: told,
        file: told.file ?? null,
        body: body.chunks,
        limitBytes: Math.min(maxBodyBytes, actor.maxBodyBytes ?? maxBodyBytes),
      });
    };
    const outcome = await receive().catch(async (error: unknown) => {
      if (!(await body.drain())) c.header('Connection', 'close');
      throw error;
    });
    count(outcome);
    if (outcome.fault !== null) {
      if (!(await body.drain())) c.header('Connection', 'close');
      const { reply, fault } = outcome;
      const error = new SlipdriftError(fault.code, `${fault.message} ${sayWhatWasStored(reply, fault)}`, {
        errors: reply.refusals,
      });
      return c.body(JSON.stringify({ ...toProblem(error, c.var.requestId), delivery: reply }), error.status, {
        'Content-Type': 'application/problem+json',
        'Cache-Control': 'no-store',
      });
    }
    if (outcome.replayed) c.header('Idempotency-Replayed', 'true');
    return c.json(outcome.reply, 200);
  });

  function count({ reply, replayed }: DeliveryOutcome): void {
    metrics.deliveries.inc();
    if (replayed) return;
    for (const fate of ['stored', 'duplicate', 'refused'] as const)
      metrics.readings.inc({ fate }, reply[fate]);
    if (reply.stored > 0) assessment.nudge();
  }

  return routes;
}

function sayWhatWasStored(
  { receipt, received, stored, duplicate, refused }: DeliveryReply,
  fault: BodyFault,
): string {
  const again = fault.code === 'body_too_large' ? 'Send it again in parts' : 'Send the whole body again';
  return `Lines before that: ${received}, of them ${stored} stored, ${duplicate} there already, ${refused} refused and kept (receipt ${receipt}). ${again}: what is there already is not stored twice.`;
}
