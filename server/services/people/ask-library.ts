import { sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';

/**
 * Runs a call of the sign-in library. It tells of storage that is away as of any other fault of its own, so storage is
 * asked: its own error, where it has one, says more.
 */
export async function askLibrary<T>(db: Database, call: () => Promise<T>): Promise<T> {
  try {
    return await call();
  } catch (error) {
    if (!isRefusal(error)) await db.execute(sql`select 1`);
    throw error;
  }
}

/** Whether the library declined what it was asked for, and did not fail. */
export const isRefusal = (error: unknown): boolean =>
  error instanceof Error && 'statusCode' in error && Number(error.statusCode) < 500;
