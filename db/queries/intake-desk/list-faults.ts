import { type Database, type RawClient, rawClient } from '#db/client.ts';

export interface FaultFilter {
  state: string;
  receipt?: string | undefined;
  sender?: string | undefined;
}

export interface FaultRow {
  fault: string;
  lines: number;
  receipts: number;
  senders: (string | null)[];
  firstAt: Date;
  newestAt: Date;
  id: number;
  line: number;
  raw: string;
  errors: { field: string; message: string }[];
}

const MOST_GROUPS = 200;

/**
 * Refused lines by their fault, most lines first, each group with its newest line. They are added up by receipt first: of
 * hundreds of thousands of lines few receipts are left to tell apart and to join.
 */
export function listFaults(db: Database, { state, receipt, sender }: FaultFilter): Promise<FaultRow[]> {
  const client = rawClient(db);
  return client<FaultRow[]>`
    with by_receipt as (
      select l.fault, l.receipt, count(*) as lines, min(l.at) as first_at, max(l.at) as newest_at, max(l.id) as id
      from refused_lines l
      where ${inState(client, state)}
        and (${receipt ?? null}::uuid is null or l.receipt = ${receipt ?? null}::uuid)
      group by l.fault, l.receipt),
    groups as (
      select b.fault, sum(b.lines)::int as lines, count(*)::int as receipts,
        array_agg(distinct r.sender) as senders, min(b.first_at) as first_at, max(b.newest_at) as newest_at,
        max(b.id) as id
      from by_receipt b join receipts r on r.id = b.receipt
      where ${sender ?? null}::text is null or r.sender = ${sender ?? null}::text
      group by b.fault
      order by lines desc, b.fault limit ${MOST_GROUPS})
    select g.fault, g.lines, g.receipts, g.senders, g.first_at as "firstAt", g.newest_at as "newestAt",
      l.id, l.line, l.raw, l.errors
    from groups g join refused_lines l on l.id = g.id
    order by g.lines desc, g.fault`;
}

/** How many there are of a state, in all groups. */
export async function countLines(db: Database, { state, receipt, sender }: FaultFilter): Promise<number> {
  const client = rawClient(db);
  const [row] = await client<{ n: number }[]>`
    select count(*)::int as n from refused_lines l
    where ${inState(client, state)}
      and (${receipt ?? null}::uuid is null or l.receipt = ${receipt ?? null}::uuid)
      and (${sender ?? null}::text is null
        or exists (select from receipts r where r.id = l.receipt and r.sender = ${sender ?? null}::text))`;
  return row?.n ?? 0;
}

/** Written out for the open ones, not a parameter: only so a plan that is kept can use their index. */
const inState = (client: RawClient, state: string) =>
  state === 'open' ? client`l.state = 'open'` : client`l.state = ${state}`;
