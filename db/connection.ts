import type postgres from 'postgres';

/** The `postgres` client, or one of its transactions: whatever takes statements. */
export type Connection = postgres.ISql<{ bigint: number }>;

/** A transaction of the `postgres` client below drizzle. */
export type RawTransaction = postgres.TransactionSql<{ bigint: number }>;
