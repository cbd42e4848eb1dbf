import { askServer } from './ask-server.ts';
import { type PacketAccess, withAccess } from './packet-access.ts';

interface Sent {
  method?: 'GET' | 'POST' | 'PUT' | 'DELETE';
  json?: unknown;
  /** sent as it is */
  raw?: { body: Blob; type: string; encoding?: string };
  signal?: AbortSignal;
}

/** A call of the packet's family, made with what the reader holds. */
export function askPacket(
  access: PacketAccess,
  path: string,
  { method = 'GET', json, raw, signal }: Sent = {},
): Promise<Response> {
  const headers: Record<string, string> = { accept: 'application/json' };
  if (json !== undefined) headers['content-type'] = 'application/json';
  if (raw !== undefined) headers['content-type'] = raw.type;
  if (raw?.encoding !== undefined) headers['content-encoding'] = raw.encoding;
  const body = json === undefined ? raw?.body : JSON.stringify(json);
  return askServer(
    path,
    withAccess(access, {
      method,
      headers,
      ...(body === undefined ? {} : { body }),
      ...(signal === undefined ? {} : { signal }),
    }),
  );
}

export async function askPacketJson<T>(access: PacketAccess, path: string, sent: Sent = {}): Promise<T> {
  const response = await askPacket(access, path, sent);
  return (await response.json()) as T;
}
