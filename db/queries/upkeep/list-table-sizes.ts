import { type Database, rawClient } from '#db/client.ts';

export interface TableSize {
  name: string;
  /** as the last analysis of the table had it */
  estimatedRows: number;
  heapBytes: number;
  indexBytes: number;
}

/** Tables of the schema with their size, the largest first; a partitioned one with all its parts. */
export function listTableSizes(db: Database): Promise<TableSize[]> {
  return rawClient(db)<TableSize[]>`
    select coalesce(parent.relname, c.relname) as name,
      sum(greatest(c.reltuples, 0))::bigint as "estimatedRows",
      sum(pg_table_size(c.oid))::bigint as "heapBytes", sum(pg_indexes_size(c.oid))::bigint as "indexBytes"
    from pg_class c
      left join pg_inherits i on i.inhrelid = c.oid and c.relispartition
      left join pg_class parent on parent.oid = i.inhparent
    where c.relnamespace = 'public'::regnamespace and c.relkind = 'r'
    group by 1 order by sum(pg_total_relation_size(c.oid)) desc, 1`;
}

export async function readDatabaseBytes(db: Database): Promise<number> {
  const [row] = await rawClient(db)<{ bytes: number }[]>`
    select pg_database_size(current_database()) as bytes`;
  return row?.bytes ?? 0;
}

export async function countTouchedVehicles(db: Database): Promise<number> {
  const [row] = await rawClient(db)<{ n: number }[]>`select count(*) as n from touched_vehicles`;
  return row?.n ?? 0;
}
