import { askServer } from './ask-server.ts';
import { type Query, writeQuery } from './write-query.ts';

/** GET under /api. The type is the contract's: the server checks its replies against the same schemas. */
export async function getJson<T>(path: string, query: Query = {}, signal?: AbortSignal): Promise<T> {
  const response = await askServer(writeQuery(path, query), {
    headers: { accept: 'application/json' },
    ...(signal === undefined ? {} : { signal }),
  });
  return (await response.json()) as T;
}
