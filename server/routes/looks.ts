import { setImmediate } from 'node:timers/promises';
import { z } from 'zod';
import { CAN_LOG_TYPE } from '#server/contract/can-log.ts';
import { look } from '#server/contract/looks.ts';
import { given, mapping, mappingName } from '#server/contract/mappings.ts';
import { BodyFault } from '#server/services/intake/body-fault.ts';
import { guardBody } from '#server/services/intake/guard-body.ts';
import { lookAtBody } from '#server/services/intake/look/look-at-body.ts';
import { findMapping } from '#server/services/mappings/mappings.ts';
import { requireAllDepots } from '#server/services/sight.ts';
import type { RouteDeps } from './deps.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes, problems } from './new-routes.ts';
import { openBody } from './open-body.ts';
import { withBytes } from './read-bytes.ts';
import { formatOf, readDeliveryHeaders } from './read-delivery-headers.ts';
import { readGiven, readUnknownColumns, requireCsv } from './read-given.ts';
import { readSample } from './read-sample.ts';

const MIB = 1_048_576;
const SAMPLE_BYTES = 8 * MIB;
/** The settings and what parts the two. */
const AROUND_BYTES = 262_144;
const UNFOLDED_BYTES = 64 * MIB;
const PIECE_BYTES = 65_536;

const settings = z
  .object({
    mapping: mapping.optional().meta({ description: 'read with it; proposed where none is given' }),
    mapping_name: mappingName.optional().meta({ description: 'read with the saved one of this name' }),
    given: given.default({}),
    whole: z.boolean().meta({ description: 'false: the sample is the beginning of a file' }),
    content_type: z
      .string()
      .max(200)
      .optional()
      .meta({ description: 'told by name and content where left out' }),
  })
  .meta({ id: 'LookSettings' });

const postLook = newCall('plan', {
  method: 'post',
  path: '/api/readings/look',
  summary: 'See what a file would come to; nothing of it is stored',
  description:
    'Either the beginning of a file, or all of it, up to 8 MiB as form data: without a mapping, one is proposed. Or the whole body with the query and headers that would store it.',
  request: {
    query: given.extend({
      mapping: z.string().optional(),
      unknown_columns: z.enum(['refuse', 'ignore']).optional(),
    }),
    body: {
      required: true,
      content: {
        'multipart/form-data': {
          schema: z.object({
            sample: z.string().meta({ format: 'binary', description: 'plain or gzip' }),
            settings: settings.meta({ description: 'as JSON' }),
          }),
        },
        'text/csv': { schema: z.string() },
        'application/x-ndjson': { schema: z.string() },
        'application/json': { schema: z.unknown() },
        [CAN_LOG_TYPE]: { schema: z.string() },
      },
    },
  },
  responses: {
    200: { description: 'What it would come to', ...asJson(look) },
    ...problems(400, 404, 408, 413, 415),
  },
});

/** Bodies are streams or form data, and are checked here. */
export function createLookRoutes({ maxBodyBytes, bodyIdleMs }: RouteDeps) {
  const routes = newRoutes();
  routes.openAPIRegistry.registerPath(postLook);
  routes.post(postLook.path, async (c) => {
    const { context } = c.var;
    requireAllDepots(context.actor, 'Looking at a delivery');
    if (/^multipart\/form-data\b/i.test(c.req.header('Content-Type') ?? '')) {
      const wanted = {
        maxBytes: SAMPLE_BYTES + AROUND_BYTES,
        idleMs: bodyIdleMs,
        types: /^multipart\/form-data\b/i,
      };
      return withBytes(c, wanted, async (bytes) => {
        const sent = await readSample(bytes, c.req.header('Content-Type') ?? '', settings, SAMPLE_BYTES);
        const { mapping: own, mapping_name: name, ...told } = sent.settings;
        const saved = name === undefined ? null : { mapping: await findMapping(context, name), saved: true };
        const found = await lookAtBody(context, {
          chunks: guardSample(sent.sample, sent.gzip, told.whole),
          gzip: sent.gzip,
          whole: told.whole,
          format: told.content_type === undefined ? null : formatOf(told.content_type),
          given: { ...(sent.name === '' ? {} : { file: sent.name }), ...told.given },
          mapping: own === undefined ? saved : { mapping: own, saved: false },
          ignoreUnknownColumns: false,
        });
        return c.json(found, 200);
      });
    }
    const body = openBody(c.req.raw.body, bodyIdleMs);
    try {
      const name = c.req.query('mapping');
      const { format, gzip } = readDeliveryHeaders((one) => c.req.header(one), {
        anyCharset: name !== undefined,
      });
      requireCsv(format, name);
      const limit = Math.min(maxBodyBytes, context.actor.maxBodyBytes ?? maxBodyBytes);
      const found = await lookAtBody(context, {
        chunks: guardBody(body.chunks, gzip, limit),
        gzip,
        whole: true,
        format,
        given: readGiven(c.req.query()),
        mapping: name === undefined ? null : { mapping: await findMapping(context, name), saved: true },
        ignoreUnknownColumns: readUnknownColumns(c.req.query('unknown_columns')),
      });
      if (!(await body.drain())) c.header('Connection', 'close');
      return c.json(found, 200);
    } catch (error) {
      if (!(await body.drain())) c.header('Connection', 'close');
      throw error;
    }
  });
  return routes;
}

/** A sample of a gzip file may end anywhere: what can be unfolded of it is all there is. */
async function* guardSample(sample: Buffer, gzip: boolean, whole: boolean): AsyncGenerator<Buffer> {
  // In pieces, and others' requests between them: a sample is read for a second and more.
  async function* one() {
    for (let from = 0; from < sample.length; from += PIECE_BYTES) {
      yield sample.subarray(from, from + PIECE_BYTES);
      await setImmediate();
    }
  }
  try {
    yield* guardBody(one(), gzip, UNFOLDED_BYTES);
  } catch (error) {
    if (!(error instanceof BodyFault)) throw error;
    if (whole) throw error;
    if (error.code !== 'body_broken' && error.code !== 'body_too_large') throw error;
  }
}
