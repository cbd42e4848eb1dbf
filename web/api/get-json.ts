import { accessKey } from './access-key.ts';
import { noAnswer, readProblem } from './problem-error.ts';

export type Query = Record<string, string | number | undefined>;

/** GET under /api. The type is the contract's: the server checks its replies against the same schemas. */
export async function getJson<T>(path: string, query: Query = {}, signal?: AbortSignal): Promise<T> {
  const search = new URLSearchParams();
  for (const [key, value] of Object.entries(query)) if (value !== undefined) search.set(key, String(value));
  const address = search.size === 0 ? `/api${path}` : `/api${path}?${search}`;
  const key = accessKey.get();
  const response = await fetch(address, {
    headers: { accept: 'application/json', ...(key === null ? {} : { authorization: `Bearer ${key}` }) },
    ...(signal === undefined ? {} : { signal }),
  }).catch((error: unknown) => {
    if (signal?.aborted) throw error;
    throw noAnswer();
  });
  if (response.status === 401) accessKey.refused(key);
  if (!response.ok) throw await readProblem(response);
  return (await response.json()) as T;
}
