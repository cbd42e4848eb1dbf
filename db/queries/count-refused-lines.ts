import { type Database, rawClient } from '#db/client.ts';

/** Refused lines that name a vehicle, by day. */
export function countRefusedLines(db: Database, unit: string): Promise<{ at: Date; n: number }[]> {
  return rawClient(db)<{ at: Date; n: number }[]>`
    select max(at) as at, count(*) as n from refused_lines where unit = ${unit} group by date_trunc('day', at)`;
}
