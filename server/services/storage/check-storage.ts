import { sql } from 'drizzle-orm';
import type { Context } from '#server/services/context.ts';

/** Whether the database answers a trivial question in time. */
export async function checkStorage({ db, log }: Context, withinMs = 2000): Promise<boolean> {
  const answered = db.execute(sql`select 1`).then(
    () => true,
    (error: unknown) => {
      log.warn({ err: error }, 'storage does not answer');
      return false;
    },
  );
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<boolean>((settle) => {
    timer = setTimeout(() => settle(false), withinMs);
  });
  return Promise.race([answered, late]).finally(() => clearTimeout(timer));
}
