import { asc } from 'drizzle-orm';
import { troubleCodes } from '#db/schema/fleet.ts';
import type { TroubleCode } from '#server/contract/trouble-codes.ts';
import type { Context } from '#server/services/context.ts';

export async function listCodes({ db }: Context): Promise<TroubleCode[]> {
  const rows = await db.select().from(troubleCodes).orderBy(asc(troubleCodes.code));
  return rows.map(({ changedAt, ...row }) => ({ ...row, changed_at: changedAt.toISOString() }));
}
