import type { Database } from './client.ts';

/**
 * A statement that is written once for a pool and planned once for a connection: `build` ends in `.prepare(name)`, with
 * `sql.placeholder` for what differs from call to call. Writing and planning a statement takes longer than most of them run.
 */
export function prepareOnce<Statement>(build: (db: Database) => Statement): (db: Database) => Statement {
  const made = new WeakMap<Database, Statement>();
  return (db) => {
    const statement = made.get(db) ?? build(db);
    made.set(db, statement);
    return statement;
  };
}
