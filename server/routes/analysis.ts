import type { Context } from 'hono';
import { accepts } from 'hono/accepts';
import type { AnalysisKind } from '#server/analysis-thread/messages.ts';
import { startAnalysisThread } from '#server/analysis-thread/start-analysis-thread.ts';
import { trendReply, trendRequest } from '#server/contract/analysis.ts';
import { livesReply, livesRequest } from '#server/contract/lives.ts';
import { SlipdriftError } from '#server/errors.ts';
import { analyseLives } from '#server/services/analysis/analyse-lives.ts';
import { analyseTrend } from '#server/services/analysis/analyse-trend.ts';
import { readLivesRequest } from '#server/services/analysis/read-lives-request.ts';
import { readTrendRequest } from '#server/services/analysis/read-trend-request.ts';
import { livesExample } from './lives-example.ts';
import { newCall } from './new-call.ts';
import { newRoutes, problems } from './new-routes.ts';
import { openBody } from './open-body.ts';
import { trendExample } from './trend-example.ts';

const MIB = 1024 * 1024;
/** Bodies that are held at once, the one in work included, and so many bytes of them together. */
const MOST_AT_ONCE = 8;
const MOST_HELD_BYTES = 128 * MIB;

interface Analysis {
  mostBodyBytes: number;
  mostIs: string;
  /** Bodies up to this may be answered at once, in some 20 ms; longer ones in the thread, where they are read too. */
  shortBytes: number;
  /** null where the body is short and yet has too much in it to be answered at once */
  answerShort: (body: string) => object | null;
}

const analyses: Record<AnalysisKind, Analysis> = {
  trend: {
    // 100,000 points with 17 digits each are 4 MiB; 1,000 some 40 KiB.
    mostBodyBytes: 8 * MIB,
    mostIs: '100,000 points, with no more digits than were measured',
    shortBytes: 48 * 1024,
    answerShort(body) {
      const request = readTrendRequest(body);
      return request.x.length > 1000 ? null : analyseTrend(request);
    },
  },
  lives: {
    // 100,000 lives with a mode, a group and three covariates are some 15 MiB; 300 some 45 KiB.
    mostBodyBytes: 32 * MIB,
    mostIs: '100,000 lives, with no more digits than were measured',
    shortBytes: 48 * 1024,
    answerShort(body) {
      const request = readLivesRequest(body);
      return request.lives.length > 500 ? null : analyseLives(request);
    },
  },
};

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

const postLives = newCall('readFleet', {
  method: 'post',
  path: '/api/analysis/lives',
  summary: 'Survival, hazard, Weibull and lognormal life, modes, groups and exposures of any life data',
  description:
    'Needs no fleet and stores nothing. Lives may enter late and run on. Data that cannot be used as a whole are refused with 400; a part of the answer that needs more than there is, is null, with its reason under `declined`. Up to 100,000 lives in 50 groups, 50 modes, 10 covariates and 32 MiB; `count` stands for many alike. More than some hundred lives are computed one after another, apart from other calls. 503 says that too many wait: send it again after `Retry-After` seconds.',
  request: {
    body: {
      required: true,
      content: { 'application/json': { schema: livesRequest, example: livesExample.request } },
    },
  },
  responses: {
    200: {
      description: 'The statistics',
      content: { 'application/json': { schema: livesReply, example: livesExample.reply } },
    },
    ...problems(400, 413, 415, 503),
  },
});

/** The body is checked by the service, in the thread where it is long; the document has the same schema. */
export function createAnalysisRoutes() {
  const routes = newRoutes();
  const thread = startAnalysisThread();
  const held = { bodies: 0, bytes: 0 };

  const answerWith = (kind: AnalysisKind) => async (c: Context) => {
    const body = openBody(c.req.raw.body);
    const leaveBody = async (error: unknown) => {
      if (!(await body.drain())) c.header('Connection', 'close');
      throw error;
    };
    if (held.bodies >= MOST_AT_ONCE) await leaveBody(refuseMore());
    held.bodies++;
    const own = { bytes: 0 };
    const take = (bytes: number) => {
      if (held.bytes + bytes > MOST_HELD_BYTES)
        throw refuseMore(`Analyses with ${MOST_HELD_BYTES / MIB} MiB together are`);
      held.bytes += bytes;
      own.bytes += bytes;
    };
    try {
      const bytes = await readAll(body.chunks, analyses[kind], take).catch(leaveBody);
      const json = answerAtOnce(kind, bytes);
      if (json !== null) return c.body(json, 200, { 'Content-Type': 'application/json' });
      const answer = await thread.run({ kind, body: bytes, takesGzip: takesGzip(c) }, c.req.raw.signal);
      return c.body(answer.bytes, 200, {
        'Content-Type': 'application/json',
        Vary: 'Accept-Encoding',
        ...(answer.isGzip ? { 'Content-Encoding': 'gzip' } : {}),
      });
    } finally {
      held.bodies--;
      held.bytes -= own.bytes;
    }
  };

  routes.openAPIRegistry.registerPath(postTrend);
  routes.post(postTrend.path, answerWith('trend'));
  routes.openAPIRegistry.registerPath(postLives);
  routes.post(postLives.path, answerWith('lives'));
  return routes;
}

/** The thread packs what it answers: on the way out it would take three times as long. */
const takesGzip = (c: Context): boolean =>
  accepts(c, { header: 'Accept-Encoding', supports: ['gzip', 'identity'], default: 'identity' }) === 'gzip';

function answerAtOnce(kind: AnalysisKind, bytes: ArrayBuffer): string | null {
  const { shortBytes, answerShort } = analyses[kind];
  if (bytes.byteLength > shortBytes) return null;
  const reply = answerShort(new TextDecoder().decode(bytes));
  return reply === null ? null : JSON.stringify(reply);
}

function refuseMore(many = `${MOST_AT_ONCE} analyses are`): SlipdriftError {
  return new SlipdriftError(
    'busy',
    `${many} in work or wait already, and this one was not begun. Send it again in some seconds.`,
    { retryAfterS: 5 },
  );
}

async function readAll(
  chunks: AsyncIterable<Uint8Array>,
  { mostBodyBytes, mostIs }: Analysis,
  take: (bytes: number) => void,
): Promise<ArrayBuffer> {
  const parts: Uint8Array[] = [];
  let length = 0;
  for await (const part of chunks) {
    length += part.byteLength;
    if (length > mostBodyBytes)
      throw new SlipdriftError(
        'body_too_large',
        `The body is over ${mostBodyBytes / MIB} MiB. Nothing was computed; send at most ${mostIs}.`,
      );
    take(part.byteLength);
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
