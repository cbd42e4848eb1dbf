import { promisify } from 'node:util';
import { gzip } from 'node:zlib';
import type { Context, TypedResponse } from 'hono';
import { parseAccept } from 'hono/utils/accept';
import type { JSONParsed } from 'hono/utils/types';
import { createShare } from '#server/services/share-equal.ts';
import type { WrittenJson } from '#server/services/written-json.ts';
import type { RequestEnv } from './deps.ts';

const pack = promisify(gzip);
const LEAST_BYTES = 1024;
/** Of nine: the usual sixth takes more than twice the time for a sixth less. */
const LEVEL = 2;

interface Ready {
  body: string | Uint8Array<ArrayBuffer>;
  /** made when the first who wants it asks */
  packed: Promise<Uint8Array<ArrayBuffer>> | null;
}

/**
 * Answers that many ask for at once, as JSON: computed, written and packed once for all whose requests are equal and who
 * may see the same. What an answer rests on of who asks is their role and depots, and nothing else. One for each call.
 */
export function createSharedAnswer() {
  const share = createShare();
  return async <T>(
    c: Context<RequestEnv>,
    question: unknown,
    answer: () => Promise<T | WrittenJson<T>>,
  ): Promise<TypedResponse<JSONParsed<T>, 200, 'json'>> => {
    const { role, right, depots } = c.var.context.actor;
    const key = JSON.stringify([role, right, depots, question]);
    const ready = await share<Ready>(key, async () => ({ body: toBody(await answer()), packed: null }));
    return write(c, ready) as Promise<TypedResponse<JSONParsed<T>, 200, 'json'>>;
  };
}

const toBody = (answer: unknown): Ready['body'] =>
  isWritten(answer) ? answer.bytes : JSON.stringify(answer);

const isWritten = (answer: unknown): answer is WrittenJson<unknown> =>
  typeof answer === 'object' && answer !== null && 'bytes' in answer && answer.bytes instanceof Uint8Array;

async function write(c: Context<RequestEnv>, ready: Ready): Promise<unknown> {
  c.header('Content-Type', 'application/json');
  // Said here, so that the middleware that packs everything else need not make the answer anew to say it.
  c.header('Vary', 'Accept-Encoding');
  if (ready.body.length < LEAST_BYTES || c.req.method === 'HEAD' || !wantsGzip(c))
    return c.body(ready.body, 200);
  ready.packed ??= pack(ready.body, { level: LEVEL }) as Promise<Uint8Array<ArrayBuffer>>;
  c.header('Content-Encoding', 'gzip');
  return c.body(await ready.packed, 200);
}

/** Wanted outright; any other wish is left to the middleware that packs everything else. */
const wantsGzip = (c: Context): boolean =>
  parseAccept(c.req.header('Accept-Encoding') ?? '').some(({ type, q }) => type === 'gzip' && q === 1);
