import { createRate } from '#server/services/access/hold-rate.ts';
import type { Actor } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';
import { createKeyFinder } from '#server/services/keys/find-key.ts';
import { digestOf } from '#server/services/keys/key-text.ts';
import { findLink, isLinkSecret } from './links.ts';

const REQUESTS_A_MINUTE = 240;

interface Asked {
  method: string;
  path: string;
  browser: string;
}

/** Tells whose secret a request brings: that of a machine's key, or of a packet's link. */
export function createHolderFinder(ctx: Pick<Context, 'db' | 'now'>, setUpKey: string | null) {
  const findKey = createKeyFinder(ctx, setUpKey);
  const hold = createRate(REQUESTS_A_MINUTE);
  return async (text: string, from: string | null, { browser, ...asked }: Asked): Promise<Actor> => {
    if (!isLinkSecret(text)) return findKey(text, from);
    await hold(
      digestOf(text).toString('hex'),
      `A link may be used ${REQUESTS_A_MINUTE} times a minute. Nothing of this request was stored; try again later.`,
    );
    return findLink(ctx, text, { from, what: sayAsked(asked), browser });
  };
}

/** By the last part of the path. */
const words = new Map([
  ['close', 'closed the job'],
  ['core', 'old unit'],
  ['findings', 'finding'],
  ['photos', 'photograph'],
  ['report', 'report'],
  ['road-test', 'finding'],
]);

function sayAsked({ method, path }: Omit<Asked, 'browser'>): string | null {
  if (path === '/api/packet-by-link') return 'opened';
  if (path.endsWith('.pdf')) return 'PDF';
  if (method === 'GET' || method === 'HEAD') return null;
  const last = path.slice(path.lastIndexOf('/') + 1);
  return words.get(last) ?? 'a call that no link opens';
}
