import { randomBytes } from 'node:crypto';
import type { Context } from '#server/services/context.ts';
import { readMadeOnce } from './read-made-once.ts';

/** The secret that cookies are signed with. */
export const readSecret = (ctx: Pick<Context, 'db'>): Promise<string> =>
  readMadeOnce(ctx, 'cookie-secret', () => randomBytes(32).toString('base64url'));
