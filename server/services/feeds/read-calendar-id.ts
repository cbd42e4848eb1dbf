import { randomUUID } from 'node:crypto';
import { readMadeOnce } from '#server/services/access/read-made-once.ts';
import type { Context } from '#server/services/context.ts';

/**
 * What tells the events of this installation from those of any other. RFC 7986, 5.3: random, and nothing of the machine or
 * the person in it.
 */
export const readCalendarId = (ctx: Pick<Context, 'db'>): Promise<string> =>
  readMadeOnce(ctx, 'calendar-id', randomUUID);
