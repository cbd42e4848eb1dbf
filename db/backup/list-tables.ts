import type { Connection } from '#db/connection.ts';

/** A table that holds rows: a plain one, or one partition of a partitioned one. */
export interface StoredTable {
  name: string;
  /** all that can be written; generated columns are not among them */
  columns: string[];
  /** of the rows on disk, without indexes */
  bytes: number;
  /** of which table it is a part, and for which rows; null for a table of its own */
  partition: { of: string; bound: string } | null;
}

/** Every table of a schema, as the database's own catalog has it, but for those that an extension brought. */
export async function listTables(client: Connection, schema: string): Promise<StoredTable[]> {
  const rows = await client<
    { name: string; columns: string[] | null; bytes: number; of: string | null; bound: string | null }[]
  >`
    select c.relname as name, pg_relation_size(c.oid) as bytes, parent.relname as of,
      pg_get_expr(c.relpartbound, c.oid) as bound,
      (select jsonb_agg(a.attname order by a.attnum) from pg_attribute a
        where a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped and a.attgenerated = '') as columns
    from pg_class c
      left join pg_inherits i on i.inhrelid = c.oid and c.relispartition
      left join pg_class parent on parent.oid = i.inhparent
    where c.relnamespace = (select oid from pg_namespace where nspname = ${schema}) and c.relkind = 'r'
      and not exists (select from pg_depend d
        where d.classid = 'pg_class'::regclass and d.objid = c.oid and d.deptype = 'e')
    order by c.relname collate "C"`;
  return rows.map(({ name, columns, bytes, of, bound }) => ({
    name,
    columns: columns ?? [],
    bytes,
    partition: of === null || bound === null ? null : { of, bound },
  }));
}
