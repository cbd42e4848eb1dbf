import type { Database } from '#db/client.ts';
import { settledMonths } from '#db/schema/upkeep.ts';

export type SettledMonth = typeof settledMonths.$inferSelect;

export const listSettledMonths = (db: Database): Promise<SettledMonth[]> => db.select().from(settledMonths);
