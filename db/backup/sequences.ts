import type { Connection } from '#db/connection.ts';
import { quoteName } from './quote-name.ts';

export interface StoredSequence {
  name: string;
  lastValue: number;
  isCalled: boolean;
}

/**
 * Where every sequence of a schema stands. Sequences are outside of transactions: one may be ahead of the rows that a
 * transaction sees, never behind.
 */
export async function readSequences(client: Connection, schema: string): Promise<StoredSequence[]> {
  const names = await client<{ name: string }[]>`
    select relname as name from pg_class
    where relnamespace = (select oid from pg_namespace where nspname = ${schema}) and relkind = 'S'
    order by relname collate "C"`;
  const found: StoredSequence[] = [];
  for (const { name } of names) {
    const [row] = await client.unsafe(
      `select last_value, is_called from ${quoteName(schema)}.${quoteName(name)}`,
    );
    found.push({ name, lastValue: Number(row?.last_value), isCalled: row?.is_called === true });
  }
  return found;
}

export async function setSequence(
  client: Connection,
  schema: string,
  sequence: StoredSequence,
): Promise<void> {
  const name = `${quoteName(schema)}.${quoteName(sequence.name)}`;
  await client`select setval(${name}::regclass, ${sequence.lastValue}, ${sequence.isCalled})`;
}
