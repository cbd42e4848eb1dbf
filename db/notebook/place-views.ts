import { quoteName } from '#db/backup/quote-name.ts';
import type { Connection } from '#db/connection.ts';
import { StorageError } from '#db/storage-error.ts';
import { notebookViews } from './views.ts';
import { hashViews, NOTEBOOK, quoteText, writeView } from './write-views.ts';

/** Begins the comment of a schema that is ours to change. */
const MARK = 'Slipdrift, for notebooks';
const UNDER_WAY = `${MARK}: the views are being made anew`;
/** For readers whom this user may not cut off. */
const READERS_S = 30;

const currentMark = () =>
  `${MARK}: read only, made at start, never changed by hand (${hashViews(notebookViews)})`;

/**
 * What the schema of the views is: as this program makes it; ours and to be made anew; another's that has the name; or
 * none, which this user may make or not.
 */
export type NotebookState = 'current' | 'old' | 'foreign' | 'absent' | 'not_allowed';

export async function readNotebookState(client: Connection): Promise<NotebookState> {
  const [row] = await client`
    select obj_description(n.oid, 'pg_namespace') as mark, pg_has_role(n.nspowner, 'usage') as own,
      has_database_privilege(current_database(), 'create') as may,
      exists (select from pg_class c where c.relnamespace = n.oid) as filled, n.oid is not null as there
    from (values (1)) one left join pg_namespace n on n.nspname = ${NOTEBOOK}`;
  if (row?.there !== true) return row?.may === true ? 'absent' : 'not_allowed';
  if (row.own !== true) return row.filled === true ? 'foreign' : 'not_allowed';
  if (row.mark === currentMark()) return 'current';
  return row.filled === true && !String(row.mark ?? '').startsWith(MARK) ? 'foreign' : 'old';
}

/**
 * Makes the views as this program knows them, where they differ; whoever could read them still can. Where this user may
 * not, it does without: nothing but notebooks needs them.
 */
export async function placeViews(transaction: Connection): Promise<void> {
  const state = await readNotebookState(transaction);
  if (state !== 'old' && state !== 'absent') return;
  if (state === 'absent') await transaction.unsafe(`create schema ${NOTEBOOK}`);
  else await dropViews(transaction);
  for (const view of notebookViews) await transaction.unsafe(writeView(view).join(';\n'));
  for (const reader of await listReaderNames(transaction))
    await transaction.unsafe(`grant select on all tables in schema ${NOTEBOOK} to ${quoteName(reader)}`);
  await transaction.unsafe(`comment on schema ${NOTEBOOK} is ${quoteText(currentMark())}`);
}

/** Takes the views away before the tables below them change; rights on the schema stay, and say who reads. */
export async function dropViews(transaction: Connection): Promise<void> {
  const state = await readNotebookState(transaction);
  if (state !== 'old' && state !== 'current') return;
  const views = await transaction<{ name: string }[]>`
    select relname as name from pg_class where relnamespace = ${NOTEBOOK}::regnamespace and relkind = 'v'`;
  if (views.length > 0) {
    await cutOffReaders(transaction);
    const names = views.map(({ name }) => `${NOTEBOOK}.${quoteName(name)}`);
    await transaction.unsafe(`set local lock_timeout = '${READERS_S}s'`);
    await transaction.unsafe(`drop view ${names.join(', ')}`).catch(explainDrop);
  }
  await transaction.unsafe(`comment on schema ${NOTEBOOK} is ${quoteText(UNDER_WAY)}`);
}

/** Ends sessions of readers, where this user may: a question can be asked again, and must not keep the program from starting. */
export async function cutOffReaders(transaction: Connection): Promise<void> {
  await transaction`
    select case when pg_has_role(usesysid, 'usage') then pg_terminate_backend(pid) end from pg_stat_activity
    where datname = current_database() and pid <> pg_backend_pid()
      and usename = any(${await listReaderNames(transaction)})`;
}

/** Roles that may use the schema, beside its owner. */
export async function listReaderNames(client: Connection): Promise<string[]> {
  const rows = await client<{ name: string }[]>`
    select distinct r.rolname as name from pg_namespace n, aclexplode(n.nspacl) a join pg_roles r on r.oid = a.grantee
    where n.nspname = ${NOTEBOOK} and a.grantee <> n.nspowner order by 1`;
  return rows.map(({ name }) => name);
}

function explainDrop(error: unknown): never {
  const { code, detail } = error as { code?: string; detail?: string };
  if (code === '2BP01')
    throw new StorageError(
      `Others depend on the views for notebooks: ${detail?.replaceAll('\n', ', ')}. Nothing was changed; remove those first.`,
    );
  if (code === '55P03')
    throw new StorageError(
      `Somebody has been reading the views for notebooks for over ${READERS_S} s. Nothing was changed; let them end, and do it again.`,
    );
  throw error;
}
