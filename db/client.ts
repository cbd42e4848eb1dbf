import type { PgDatabase } from 'drizzle-orm/pg-core';
import { drizzle, type PostgresJsQueryResultHKT, type PostgresJsSession } from 'drizzle-orm/postgres-js';
import postgres from 'postgres';
import * as access from './schema/access.ts';
import * as analysis from './schema/analysis.ts';
import * as fleet from './schema/fleet.ts';
import * as intake from './schema/intake.ts';

const schema = { ...fleet, ...intake, ...analysis, ...access };
type Schema = typeof schema;

/** What services are given: the pool or, inside `db.transaction`, the transaction. Both are this one type. */
export type Database = PgDatabase<PostgresJsQueryResultHKT, Schema>;

/** The client's own, of up to 20 s, would keep senders waiting long after a server has come back. */
const LONGEST_BACKOFF_S = 1;

/** The `postgres` client below drizzle, for COPY, cursors and LISTEN. */
export type RawClient = postgres.Sql<{ bigint: number }>;

export interface OpenedDatabase {
  db: Database;
  client: RawClient;
  /** Lets running queries end, for at most `seconds`, then closes every connection. */
  close(seconds?: number): Promise<void>;
}

export interface DatabaseOptions {
  /** connections at most; default 10 */
  connections?: number;
  /** a statement that runs longer is cancelled; 0 for never; default 0 */
  statementSeconds?: number;
}

/**
 * Opens a pool on `url`. A Unix socket is named as libpq does it: `postgres://user@localhost/base?host=/folder`.
 *
 * Through drizzle and through the raw client alike: `timestamptz` arrives as Date and is sent as Date or text,
 * `date` is text (YYYY-MM-DD), `bigint` (so also `count(*)` and `sum(integer)`) is a number, `real` keeps the
 * digits that PostgreSQL prints. JSON parameters of the raw client are text: `${JSON.stringify(x)}::jsonb`.
 */
export function openDatabase(url: string, options: DatabaseOptions = {}): OpenedDatabase {
  const client: RawClient = postgres(
    ...postgresArguments(url, {
      max: options.connections ?? 10,
      idle_timeout: 300,
      connect_timeout: 15,
      backoff: (failures: number) => Math.min(0.05 * 2 ** failures, LONGEST_BACKOFF_S),
      onnotice: () => {},
      types: { bigint: { to: 20, from: [20], serialize: String, parse: Number } },
      connection: {
        application_name: 'slipdrift',
        TimeZone: 'UTC',
        statement_timeout: Math.round((options.statementSeconds ?? 0) * 1000),
        idle_in_transaction_session_timeout: 600_000,
      },
    }),
  );
  const db = drizzle(client, { schema });
  handleInstants(client);
  return { db, client, close: (seconds = 5) => client.end({ timeout: seconds }) };
}

/** The raw client of a pool or, inside a transaction, of that transaction's own connection. */
export function rawClient(db: Database): RawClient {
  const session = db._.session as unknown as PostgresJsSession<RawClient, Schema, never>;
  return session.client;
}

type PostgresOptions = postgres.Options<{ bigint: postgres.PostgresType<number> }>;

/** `postgres` does not know libpq's `host` parameter and would send it to the server as a setting. */
function postgresArguments(url: string, options: PostgresOptions): [string, PostgresOptions] {
  const parsed = new URL(url);
  const folder = parsed.searchParams.get('host');
  if (folder === null) return [url, options];
  parsed.searchParams.delete('host');
  const port = parsed.port === '' ? '5432' : parsed.port;
  return [parsed.href, { ...options, path: `${folder}/.s.PGSQL.${port}` }];
}

/** drizzle switches off the client's handling of times; its own columns accept Dates as well as text. */
function handleInstants(client: RawClient): void {
  const { parsers, serializers } = client.options;
  for (const type of [1184, 1114]) {
    parsers[type] = (text: string) => new Date(type === 1114 ? `${text}Z` : text);
    serializers[type] = (value: Date | string) => (value instanceof Date ? value.toISOString() : value);
  }
}
