import { quoteName } from '#db/backup/quote-name.ts';
import type { Connection } from '#db/connection.ts';
import { listReaderNames } from './place-views.ts';
import { NOTEBOOK, quoteText } from './write-views.ts';

/** Begins the name of every role of a reader: the rules of our own server's network connections know them by it. */
export const READER_PREFIX = 'notebook_';
const LONGEST_STATEMENT = '5min';
const LONGEST_PAUSE = '5min';
const CONNECTIONS = 4;
/** Of temporary files: a question that sorts more would take the disk from deliveries. */
const MOST_TEMPORARY = '4GB';

export interface Reader {
  role: string;
  /** as written down when it was added */
  says: string;
  connected: number;
}

/** The statements that make a role that reads the views and nothing else. `password` may be a digest. */
export const writeReader = (role: string, password: string, database: string, says: string): string[] => [
  `create role ${quoteName(role)} login nosuperuser nocreatedb nocreaterole noinherit connection limit ${CONNECTIONS} password ${quoteText(password)}`,
  `alter role ${quoteName(role)} set default_transaction_read_only = on`,
  `alter role ${quoteName(role)} set statement_timeout = '${LONGEST_STATEMENT}'`,
  `alter role ${quoteName(role)} set idle_in_transaction_session_timeout = '${LONGEST_PAUSE}'`,
  `alter role ${quoteName(role)} set search_path = ${NOTEBOOK}`,
  `comment on role ${quoteName(role)} is ${quoteText(says)}`,
  `grant connect on database ${quoteName(database)} to ${quoteName(role)}`,
  `grant usage on schema ${NOTEBOOK} to ${quoteName(role)}`,
  `grant select on all tables in schema ${NOTEBOOK} to ${quoteName(role)}`,
];

export async function makeReader(
  transaction: Connection,
  role: string,
  digest: string,
  says: string,
): Promise<void> {
  const { database, isSuper } = await whoAmI(transaction);
  for (const statement of writeReader(role, digest, database, says)) await transaction.unsafe(statement);
  if (isSuper)
    await transaction.unsafe(`alter role ${quoteName(role)} set temp_file_limit = '${MOST_TEMPORARY}'`);
}

/** Takes the role and its rights away; who reads with it at the moment is cut off, where this user may do that. */
export async function dropReader(transaction: Connection, role: string): Promise<void> {
  const { database } = await whoAmI(transaction);
  const name = quoteName(role);
  await transaction.unsafe(
    `revoke all on all tables in schema ${NOTEBOOK} from ${name};
    revoke all on schema ${NOTEBOOK} from ${name};
    revoke all on database ${quoteName(database)} from ${name};
    drop role ${name}`,
  );
}

/** Ends the sessions of a role. It can begin no new ones once it may not log in. */
export async function endReading(client: Connection, role: string): Promise<void> {
  await client.unsafe(`alter role ${quoteName(role)} nologin`);
  await client`select pg_terminate_backend(pid) from pg_stat_activity where usename = ${role}`.catch(
    ignoreNotAllowed,
  );
}

export async function listReaders(client: Connection): Promise<Reader[]> {
  const names = await listReaderNames(client);
  const rows = await client<{ role: string; says: string | null; connected: number }[]>`
    select rolname as role, shobj_description(oid, 'pg_authid') as says,
      (select count(*) from pg_stat_activity where usename = rolname) as connected
    from pg_roles where rolname in ${client(names.length > 0 ? names : [''])} order by 1`;
  return rows.map(({ role, says, connected }) => ({ role, says: says ?? '', connected }));
}

/** Whether there is a role of this name in the server, a reader of ours or not. */
export async function roleExists(client: Connection, role: string): Promise<boolean> {
  const rows = await client`select 1 from pg_roles where rolname = ${role}`;
  return rows.length > 0;
}

/** What a role may beyond reading the views: everybody may, where somebody gave the right to PUBLIC. */
export async function findForeignRights(client: Connection, role: string): Promise<string[]> {
  const rows = await client<{ says: string }[]>`
    select 'read ' || c.oid::regclass as says from pg_class c
      where c.relnamespace in (select oid from pg_namespace where nspname in ('public', 'drizzle'))
        and c.relkind in ('r', 'p', 'v', 'm') and has_any_column_privilege(${role}, c.oid, 'select, insert, update')
    union all
    select 'make tables in the schema ' || nspname from pg_namespace
      where nspname !~ '^pg_(toast|temp)' and has_schema_privilege(${role}, oid, 'create')
    union all
    select 'make schemas' where has_database_privilege(${role}, current_database(), 'create')
    limit 5`;
  return rows.map(({ says }) => says);
}

/** What this user may do about roles, and where a reader would connect. */
export async function whoAmI(client: Connection): Promise<{
  database: string;
  isSuper: boolean;
  mayMakeRoles: boolean;
  listens: string;
  port: number;
}> {
  const [row] = await client`
    select current_database() as database, rolsuper as "isSuper", rolsuper or rolcreaterole as "mayMakeRoles",
      current_setting('listen_addresses', true) as listens, current_setting('port')::integer as port
    from pg_roles where rolname = current_user`;
  return row as never;
}

/** Functions by which whoever is let in could fill the disk with large objects, or hold a lock that the program waits for. */
const OPEN_TO_ALL = '^(lo_(creat|create|from_bytea|put|open|unlink)|lowrite|pg_(try_)?advisory_.*lock.*)$';

/**
 * Keeps everybody from temporary tables, large objects and advisory locks in this database: only where it is all ours. Our
 * own user is above such rights.
 */
export async function revokeCommonRights(client: Connection): Promise<void> {
  const { database } = await whoAmI(client);
  await client.unsafe(`revoke temporary on database ${quoteName(database)} from public`);
  const open = await client<{ name: string }[]>`
    select oid::regprocedure::text as name from pg_proc
    where pronamespace = 'pg_catalog'::regnamespace and proname ~ ${OPEN_TO_ALL}`;
  await client.unsafe(`revoke execute on function ${open.map(({ name }) => name).join(', ')} from public`);
}

function ignoreNotAllowed(error: unknown): void {
  if ((error as { code?: string }).code !== '42501') throw error;
}
