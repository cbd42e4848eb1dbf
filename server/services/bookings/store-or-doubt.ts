import { SlipdriftError, toSlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';

/** Storage went away when it was to say whether something is stored: nobody knows. */
export class InDoubt extends SlipdriftError {
  constructor(what: string, cause: unknown) {
    super('storage_unavailable', `Storage went away, so ${what} or not. Look first.`, { cause });
  }
}

/** Runs work as one transaction. Where the answer to its end is lost, the error says what may have happened: `doubt`. */
export async function storeOrDoubt<T>(
  ctx: Context,
  doubt: string,
  work: (inside: Context) => Promise<T>,
): Promise<T> {
  let isDone = false;
  try {
    return await ctx.db.transaction(async (transaction) => {
      const result = await work({ ...ctx, db: transaction });
      isDone = true;
      return result;
    });
  } catch (error) {
    throw isDone && toSlipdriftError(error).code === 'storage_unavailable'
      ? new InDoubt(doubt, error)
      : error;
  }
}
