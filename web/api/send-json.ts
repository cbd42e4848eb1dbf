import { askServer } from './ask-server.ts';

type Method = 'POST' | 'PUT' | 'PATCH' | 'DELETE';

/** A call under /api that changes something and is answered. */
export async function sendJson<T>(
  method: Method,
  path: string,
  body?: unknown,
  signal?: AbortSignal,
): Promise<T> {
  const response = await send(method, path, body, signal);
  return (await response.json()) as T;
}

/** The same where the answer is empty. */
export async function sendOnly(method: Method, path: string, body?: unknown): Promise<void> {
  await send(method, path, body);
}

const send = (method: Method, path: string, body: unknown, signal?: AbortSignal): Promise<Response> =>
  askServer(path, {
    method,
    headers: {
      accept: 'application/json',
      ...(body === undefined ? {} : { 'content-type': 'application/json' }),
    },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    ...(signal === undefined ? {} : { signal }),
  });
