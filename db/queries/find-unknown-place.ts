import type { RawClient } from '#db/client.ts';

/** The first of these names that is in nobody's books, with those that are; null where all are known. */
export async function findUnknownPlace(
  client: RawClient,
  kind: 'platform' | 'depot',
  asked: readonly string[],
): Promise<{ unknown: string; known: string[] } | null> {
  if (asked.length === 0) return null;
  const rows = await client<{ id: string }[]>`select id from ${client(`${kind}s`)} order by id`;
  const known = rows.map(({ id }) => id);
  const unknown = asked.find((id) => !known.includes(id));
  return unknown === undefined ? null : { unknown, known };
}
