import { type Database, rawClient } from '#db/client.ts';

export interface ReadingMonth {
  /** YYYY-MM, UTC */
  month: string;
  table: string;
  /** its number in the database's catalogue */
  tableId: number;
  heapBytes: number;
  indexBytes: number;
  /** as the last analysis of the table had it, grown with the table since; 0 where it holds none */
  estimatedRows: number;
  /** first and last moment among the readings that the analysis looked at */
  sampledFirstAt: Date | null;
  sampledLastAt: Date | null;
}

/** Months of readings that have a partition, the oldest first. Asks the catalogue and reads no reading. */
export function listReadingMonths(db: Database): Promise<ReadingMonth[]> {
  return rawClient(db)<ReadingMonth[]>`
    select replace(substr(c.relname, 11), 'm', '-') as month, c.relname as "table", c.oid::bigint as "tableId",
      pg_table_size(c.oid) as "heapBytes", pg_indexes_size(c.oid) as "indexBytes",
      case when pg_relation_size(c.oid) = 0 then 0
        when c.reltuples > 0 and c.relpages > 0 then
          round(c.reltuples * (pg_relation_size(c.oid) / current_setting('block_size')::float8 / c.relpages))::bigint
        else round(pg_relation_size(c.oid) / 84.5)::bigint end as "estimatedRows",
      s.moments[1] as "sampledFirstAt", s.moments[array_upper(s.moments, 1)] as "sampledLastAt"
    from pg_inherits i join pg_class c on c.oid = i.inhrelid
      left join lateral (
        select histogram_bounds::text::timestamptz[] as moments from pg_stats
        where schemaname = 'public' and tablename = c.relname and attname = 'at') s on true
    where i.inhparent = 'public.readings'::regclass and c.relname ~ '^readings_y[0-9]{4}m[0-9]{2}$'
    order by c.relname`;
}
