-- A stand-in for the Citus extension, for tests. It moves no rows: it keeps a list of what was placed how, and fails where
-- the documentation (docs.citusdata.com: 'Creating and Modifying Distributed Objects', 'Citus Utility Functions',
-- 'Citus Tables and Views') and the project's threads say that the extension fails.

create schema citus;
create type citus.distribution_type as enum ('hash', 'range', 'append');

create table citus.pg_dist_node (
  groupid integer primary key, nodename text not null, nodeport integer not null default 5432,
  isactive boolean not null default true, noderole text not null default 'primary');
create table citus.stand_in_placed (
  name oid primary key, kind text not null, field text, groupid integer not null);
create table citus.stand_in_freed (name oid primary key);
create view citus.citus_tables as
  select name::regclass as table_name, kind as citus_table_type, field as distribution_column,
    groupid as colocation_id from citus.stand_in_placed;
alter table citus.pg_dist_node set schema pg_catalog;
alter view citus.citus_tables set schema pg_catalog;

create function pg_catalog.citus_set_coordinator_host(host text, port integer default 5432) returns void
  language sql as $$ insert into pg_catalog.pg_dist_node (groupid, nodename, nodeport) values (0, host, port) $$;
create function pg_catalog.citus_add_node(host text, port integer) returns integer language sql as $$
  insert into pg_catalog.pg_dist_node (groupid, nodename, nodeport)
  select max(groupid) + 1, host, port from pg_catalog.pg_dist_node returning groupid $$;

create function citus.kind_of(relation oid) returns text language sql stable as $$
  select coalesce((select kind from citus.stand_in_placed where name = relation), 'plain') $$;

-- Between which tables a foreign key may be.
create function citus.check_foreign_keys() returns void language plpgsql as $$
declare
  k record;
begin
  for k in select conname, citus.kind_of(conrelid) as child, citus.kind_of(confrelid) as parent, confdeltype, conkey, conrelid
    from pg_constraint where contype = 'f' and conparentid = 0
  loop
    if k.child = 'plain' and k.parent = 'plain' or k.child <> 'distributed' and k.parent = 'reference'
      or k.child = 'distributed' and k.parent = 'reference'
      or k.child = 'reference' and k.parent = 'plain' and k.confdeltype in ('a', 'r') then
      continue;
    end if;
    if k.child = 'distributed' and k.parent = 'distributed' and exists (
      select from pg_attribute a join citus.stand_in_placed p on p.name = a.attrelid and p.field = a.attname
      where a.attrelid = k.conrelid and a.attnum = any(k.conkey)) then
      continue;
    end if;
    raise exception 'cannot create foreign key constraint % from a % table to a % table', k.conname, k.child, k.parent;
  end loop;
end $$;

create function citus.check_table(relation regclass, field text) returns void language plpgsql as $$
declare
  i record;
begin
  if citus.kind_of(relation) <> 'plain' then
    raise exception 'table "%" is already distributed', relation using errcode = 'invalid_table_definition';
  end if;
  if exists (select from pg_class where oid = relation and relispartition) then
    raise exception 'cannot distribute relation "%": it is a partition', relation;
  end if;
  if exists (select from pg_trigger where tgrelid = relation and not tgisinternal) then
    raise exception 'cannot distribute relation "%" because it has triggers', relation;
  end if;
  if field is null then
    return;
  end if;
  for i in select x.indexrelid::regclass as name, x.indkey::smallint[] as keys from pg_index x
    where x.indrelid = relation and (x.indisunique or x.indisexclusion)
  loop
    if not exists (select from pg_attribute where attrelid = relation and attname = field and attnum = any(i.keys)) then
      raise exception 'cannot create constraint on "%": % does not include the distribution column', relation, i.name;
    end if;
  end loop;
end $$;

create function pg_catalog.create_reference_table(table_name regclass) returns void language plpgsql as $$
begin
  perform citus.check_table(table_name, null);
  insert into citus.stand_in_placed values (table_name, 'reference', null, 1);
  perform citus.check_foreign_keys();
end $$;

create function pg_catalog.create_distributed_table(
  table_name regclass, distribution_column text, distribution_type citus.distribution_type default 'hash',
  colocate_with text default 'default', shard_count integer default null) returns void language plpgsql as $$
declare
  beside citus.stand_in_placed;
begin
  perform citus.check_table(table_name, distribution_column);
  if not exists (select from pg_attribute where attrelid = table_name and attname = distribution_column) then
    raise exception 'column "%" of relation "%" does not exist', distribution_column, table_name;
  end if;
  if colocate_with not in ('none', 'default') then
    select * into beside from citus.stand_in_placed where name = colocate_with::regclass;
    if beside.kind is distinct from 'distributed' then
      raise exception 'relation % is not distributed', colocate_with;
    end if;
    if shard_count is not null then
      raise exception 'cannot use shard_count with a table that is colocated';
    end if;
    if (select atttypid from pg_attribute where attrelid = table_name and attname = distribution_column) <>
      (select atttypid from pg_attribute where attrelid = beside.name and attname = beside.field) then
      raise exception 'cannot colocate tables % and %', colocate_with, table_name;
    end if;
  end if;
  insert into citus.stand_in_placed values (table_name, 'distributed', distribution_column,
    coalesce(beside.groupid, (select max(groupid) + 1 from citus.stand_in_placed), 2));
  perform citus.check_foreign_keys();
end $$;

create function pg_catalog.truncate_local_data_after_distributing_table(function_table_name regclass) returns void
  language plpgsql as $$
begin
  if citus.kind_of(function_table_name) = 'plain' then
    raise exception 'supplied parameter is not a distributed relation';
  end if;
  if exists (select from pg_constraint where contype = 'f' and confrelid = function_table_name
    and citus.kind_of(conrelid) = 'plain') then
    raise exception 'cannot truncate a table referenced in a foreign key constraint by a local table';
  end if;
  insert into citus.stand_in_freed values (function_table_name) on conflict do nothing;
end $$;

create function citus.check_after_alter() returns event_trigger language plpgsql as $$
begin
  perform citus.check_foreign_keys();
end $$;
create event trigger citus_check_after_alter on ddl_command_end when tag in ('ALTER TABLE')
  execute function citus.check_after_alter();
