import { type Database, rawClient } from '#db/client.ts';
import { LIVING_WORKERS } from '#db/hold-worker-number.ts';

export interface WaitingWork {
  /** vehicles that are touched, or in hand, and not ranked yet */
  vehicles: number;
  /** those of them that nobody has in hand, touched or half done */
  free: number;
  /** how long the one has waited that was touched first, s; 0 where none is */
  oldestS: number;
  /** another one after each delivery that touches a vehicle */
  mark: string;
  /** that live */
  workers: number;
}

/** What is left to assess, over all programs of the database. */
export async function readWaiting(db: Database): Promise<WaitingWork> {
  const client = rawClient(db);
  const [row] = await client<WaitingWork[]>`
    with living(worker) as materialized (${client.unsafe(LIVING_WORKERS)}),
    touched as (
      select count(*) as n, min(since) as since, coalesce(sum(xmin::text::bigint), 0)::text as mark
      from touched_vehicles),
    claimed as (
      select count(*) as n, min(since) as since,
        count(*) filter (where claimed_by is null or claimed_by not in (select worker from living)) as free
      from claimed_vehicles)
    select (t.n + c.n)::integer as vehicles, (t.n + c.free)::integer as free, t.n || ' ' || t.mark as mark,
      coalesce(greatest(extract(epoch from clock_timestamp() - least(t.since, c.since)), 0), 0)::float8 as "oldestS",
      (select count(*) from living)::integer as workers
    from touched t, claimed c`;
  return row ?? { vehicles: 0, free: 0, oldestS: 0, mark: '', workers: 0 };
}
