import { type Database, rawClient } from '#db/client.ts';

export interface ThroughputRow {
  from: Date;
  deliveries: number;
  received: number;
  stored: number;
  duplicate: number;
  refused: number;
}

/** Lines of the deliveries since a moment, by hour or by day of a time zone; spans without any are left out. */
export function readThroughput(
  db: Database,
  { since, span, zone }: { since: Date; span: 'hour' | 'day'; zone: string },
): Promise<ThroughputRow[]> {
  return rawClient(db)<ThroughputRow[]>`
    select date_trunc(${span}, at, ${zone}) as "from", count(*)::int as deliveries,
      sum(received)::int as received, sum(stored)::int as stored,
      sum(duplicate)::int as duplicate, sum(refused)::int as refused
    from receipts where at >= ${since} group by 1 order by 1`;
}
