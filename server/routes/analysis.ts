import { startAnalysisThread } from '#server/analysis-thread/start-analysis-thread.ts';
import { trendReply, trendRequest } from '#server/contract/analysis.ts';
import { SlipdriftError } from '#server/errors.ts';
import { analyseTrend } from '#server/services/analysis/analyse-trend.ts';
import { readTrendRequest } from '#server/services/analysis/read-trend-request.ts';
import { newCall } from './new-call.ts';
import { newRoutes, problems } from './new-routes.ts';
import { openBody } from './open-body.ts';
import { trendExample } from './trend-example.ts';

const MIB = 1024 * 1024;
/** 100,000 points with 17 digits each are 4 MiB. */
const MOST_BODY_BYTES = 8 * MIB;
/** Series up to this are answered at once, in some 20 ms; longer ones in the thread, where they are read too. */
const SHORT_POINTS = 1000;
/** 1,000 points with 17 digits each are some 40 KiB. */
const SHORT_BYTES = 48 * 1024;
/** Bodies that are held at once, the one in work included. */
const MOST_AT_ONCE = 8;

const postTrend = newCall('readFleet', {
  method: 'post',
  path: '/api/analysis/trend',
  summary: 'Trend, onset and alarms of any series',
  description:
    'Needs no fleet and stores nothing. A series that cannot be used as a whole is refused with 400; a part of the answer that needs more than the series has is null, with its reason under `declined`. Up to 100,000 points; longer series than some hundred points are computed one after another, apart from other calls. 503 says that too many wait: send it again after `Retry-After` seconds.',
  request: {
    body: {
      required: true,
      content: { 'application/json': { schema: trendRequest, example: trendExample.request } },
    },
  },
  responses: {
    200: {
      description: 'The statistics',
      content: { 'application/json': { schema: trendReply, example: trendExample.reply } },
    },
    ...problems(400, 413, 415, 503),
  },
});

/** The body is checked by the service, in the thread where it is long; the document has the same schema. */
export function createAnalysisRoutes() {
  const routes = newRoutes();
  const thread = startAnalysisThread();
  let atOnce = 0;
  routes.openAPIRegistry.registerPath(postTrend);
  routes.post(postTrend.path, async (c) => {
    const body = openBody(c.req.raw.body);
    const leaveBody = async (error: unknown) => {
      if (!(await body.drain())) c.header('Connection', 'close');
      throw error;
    };
    if (atOnce >= MOST_AT_ONCE) await leaveBody(refuseMore());
    atOnce++;
    try {
      const bytes = await readAll(body.chunks).catch(leaveBody);
      const json = answerShort(bytes) ?? (await thread.run(bytes, c.req.raw.signal));
      return c.body(json, 200, { 'Content-Type': 'application/json' });
    } finally {
      atOnce--;
    }
  });
  return routes;
}

function answerShort(bytes: ArrayBuffer): string | null {
  if (bytes.byteLength > SHORT_BYTES) return null;
  const request = readTrendRequest(new TextDecoder().decode(bytes));
  return request.x.length > SHORT_POINTS ? null : JSON.stringify(analyseTrend(request));
}

function refuseMore(): SlipdriftError {
  return new SlipdriftError(
    'busy',
    `${MOST_AT_ONCE} analyses are in work or wait already, and this one was not begun. Send it again in some seconds.`,
    { retryAfterS: 5 },
  );
}

async function readAll(chunks: AsyncIterable<Uint8Array>): Promise<ArrayBuffer> {
  const parts: Uint8Array[] = [];
  let length = 0;
  for await (const part of chunks) {
    length += part.byteLength;
    if (length > MOST_BODY_BYTES)
      throw new SlipdriftError(
        'body_too_large',
        `The body is over ${MOST_BODY_BYTES / MIB} MiB. Nothing was computed; send at most 100,000 points, with no more digits than were measured.`,
      );
    parts.push(part);
  }
  const all = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.byteLength;
  }
  return all.buffer;
}
