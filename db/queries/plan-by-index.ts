import { type Database, rawClient } from '#db/client.ts';

const JOINS = ['enable_hashjoin', 'enable_mergejoin', 'enable_seqscan'];
const OFF = JOINS.map((name) => `set local ${name} = off`).join('; ');
const AS_USUAL = JOINS.map((name) => `set local ${name} to default`).join('; ');

/**
 * Has statements that go through a list of vehicles find each by the key, in the order of the list. The planner knows nothing
 * of a table or a month just begun, and would read all of it. Within a transaction.
 */
export async function planByIndex<T>(transaction: Database, work: () => Promise<T>): Promise<T> {
  const client = rawClient(transaction);
  await client.unsafe(OFF);
  const found = await work();
  await client.unsafe(AS_USUAL);
  return found;
}
