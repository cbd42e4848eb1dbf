import { randomBytes } from 'node:crypto';
import { rawClient } from '#db/client.ts';
import type { Connection } from '#db/connection.ts';
import { readNotebookState } from '#db/notebook/place-views.ts';
import {
  dropReader,
  endReading,
  findForeignRights,
  listReaders,
  makeReader,
  READER_PREFIX,
  type Reader,
  revokeCommonRights,
  roleExists,
  whoAmI,
  writeReader,
} from '#db/notebook/readers.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { scramDigest } from './scram-digest.ts';

const NAME = /^[a-z][a-z0-9_]{0,39}$/;

export interface NewReader {
  role: string;
  /** nowhere else */
  password: string;
  database: string;
  /** where the server listens for network connections; '' for none */
  listens: string;
  port: number;
}

/** Makes a role of the database that reads the views for notebooks. `ownServer`: nobody else uses it. */
export async function addReader(ctx: Context, name: string, ownServer: boolean): Promise<NewReader> {
  const role = toRole(name);
  const client = rawClient(ctx.db);
  await requireViews(client);
  const { database, listens, port, mayMakeRoles } = await whoAmI(client);
  const says = `Reads the views for notebooks of Slipdrift; added ${ctx.now().toISOString().slice(0, 10)}`;
  if (!mayMakeRoles)
    throw new SlipdriftError(
      'not_allowed',
      `The user of DATABASE_URL may not make roles. Nothing was changed; an administrator of the database can run this, with a password of their own:\n${writeReader(role, 'a long password', database, says).join(';\n')};`,
    );
  if (await roleExists(client, role))
    throw new SlipdriftError(
      'conflict',
      `The database has a role ${role} already. Nothing was changed; choose another name, or slipdrift notebook remove ${name}.`,
    );
  const password = randomBytes(24).toString('base64url');
  await ctx.db.transaction(async (transaction) => {
    const inner = rawClient(transaction);
    await makeReader(inner, role, scramDigest(password), says);
    if (ownServer) await revokeCommonRights(inner);
    await refuseForeignRights(inner, role);
    await noteChanges(transaction, ctx, [
      { action: 'created', subject: 'notebook', subjectId: role, after: { name } },
    ]);
  });
  return { role, password, database, listens, port };
}

export const listNotebookReaders = (ctx: Context): Promise<Reader[]> => listReaders(rawClient(ctx.db));

/** Ends a role: its sessions at once, then its rights and itself. */
export async function removeReader(ctx: Context, name: string): Promise<string> {
  const role = toRole(name);
  const client = rawClient(ctx.db);
  const readers = await listReaders(client);
  if (!readers.some((one) => one.role === role))
    throw new SlipdriftError(
      'not_found',
      `No role ${role} reads the views. slipdrift notebook list names all.`,
    );
  try {
    await endReading(client, role);
    await ctx.db.transaction(async (transaction) => {
      await dropReader(rawClient(transaction), role);
      await noteChanges(transaction, ctx, [
        { action: 'deleted', subject: 'notebook', subjectId: role, before: { name } },
      ]);
    });
  } catch (error) {
    throw explainRemoval(error, role);
  }
  return role;
}

function toRole(name: string): string {
  const short = name.startsWith(READER_PREFIX) ? name.slice(READER_PREFIX.length) : name;
  if (NAME.test(short)) return READER_PREFIX + short;
  throw new SlipdriftError(
    'invalid_request',
    `'${name}' cannot be the name of a reader: small letters, digits and _ only, a letter first, 40 at most. Nothing was changed.`,
  );
}

async function requireViews(client: Connection): Promise<void> {
  const state = await readNotebookState(client);
  if (state === 'current') return;
  throw new SlipdriftError(
    'conflict',
    state === 'foreign'
      ? 'The database has a schema notebook that is not ours, so the views are not there. Nothing was changed; rename that schema, and do it again.'
      : 'The user of the database may not make the schema of the views. Nothing was changed; an administrator can run: create schema notebook authorization the_user_of_slipdrift;',
  );
}

async function refuseForeignRights(transaction: Connection, role: string): Promise<void> {
  const rights = await findForeignRights(transaction, role);
  if (rights.length === 0) return;
  throw new SlipdriftError(
    'conflict',
    `In this database everybody may ${rights.join(', ')}, and so would ${role}. Nothing was changed; take that from PUBLIC first (as with: revoke create on schema public from public), and do it again.`,
  );
}

function explainRemoval(error: unknown, role: string): unknown {
  const { code, detail } = error as { code?: string; detail?: string };
  if (code === '2BP01')
    return new SlipdriftError(
      'conflict',
      `${role} has rights elsewhere (${detail?.replaceAll('\n', ', ')}). It cannot log in any more; take those away, and remove it again.`,
    );
  if (code === '42501')
    return new SlipdriftError(
      'not_allowed',
      `The user of DATABASE_URL may not remove ${role}. An administrator of the database can run: drop owned by ${role}; drop role ${role};`,
    );
  return error;
}
