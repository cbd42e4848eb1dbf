import type { z } from 'zod';
import { CommandError } from '#server/cli/command-error.ts';
import { CAN_LOG_TYPE } from '#server/contract/can-log.ts';
import { type Look, look } from '#server/contract/looks.ts';
import type { Mapping } from '#server/contract/mappings.ts';
import { problem } from '#server/contract/problems.ts';
import { brokenDelivery, deliveryReply } from '#server/contract/receipts.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Imported } from './import-target.ts';
import type { ImportFile } from './open-import-file.ts';
import { givenWith, type ReadOptions } from './read-options.ts';

const CONTENT_TYPES = {
  csv: 'text/csv',
  ndjson: 'application/x-ndjson',
  json: 'application/json',
  can: CAN_LOG_TYPE,
};

interface Server {
  url: string;
  key: string | null;
}

/** Sends a file as any gateway would. */
export async function sendFile(
  server: Server,
  options: ReadOptions,
  file: ImportFile,
  body: AsyncIterable<Uint8Array>,
): Promise<Imported> {
  const { ok, status, said } = await post(server, '/api/readings', options, file, body);
  const reply = deliveryReply.safeParse(said);
  if (ok && reply.success) return { reply: reply.data, fault: null };
  const broken = brokenDelivery.safeParse(said);
  if (broken.success && broken.data.delivery !== undefined)
    return { reply: broken.data.delivery, fault: broken.data.detail };
  throw toError(server, status, said);
}

/** Has a server look at a file. */
export async function askLook(
  server: Server,
  options: ReadOptions,
  file: ImportFile,
  body: AsyncIterable<Uint8Array>,
): Promise<Look> {
  const { ok, status, said } = await post(server, '/api/readings/look', options, file, body);
  return readAnswer(server, ok, status, said, look);
}

export async function putMapping(server: Server, name: string, mapping: Mapping): Promise<void> {
  const url = new URL(`/api/mappings/${encodeURIComponent(name)}`, server.url);
  const headers = { 'content-type': 'application/json', ...headersOf(server) };
  const { ok, status, said } = await ask(url, { method: 'PUT', headers, body: JSON.stringify(mapping) });
  if (!ok) throw toError(server, status, said);
}

function post(
  server: Server,
  path: string,
  { mapping, ...options }: ReadOptions,
  file: ImportFile,
  body: AsyncIterable<Uint8Array>,
) {
  const url = new URL(path, server.url);
  for (const [name, value] of Object.entries(givenWith({ mapping, ...options }, file)))
    url.searchParams.set(name, String(value));
  if (mapping !== null) url.searchParams.set('mapping', mapping);
  if (options.ignoreUnknownColumns) url.searchParams.set('unknown_columns', 'ignore');
  const headers = {
    'content-type': CONTENT_TYPES[file.format],
    ...(file.gzip ? { 'content-encoding': 'gzip' } : {}),
    ...headersOf(server),
  };
  // Node's fetch takes any asynchronous iterable; the DOM's types do not know it.
  const streamed = { method: 'POST', headers, body: body as unknown as BodyInit, duplex: 'half' };
  return ask(url, streamed as RequestInit);
}

const headersOf = ({ key }: Server): Record<string, string> =>
  key === null ? {} : { authorization: `Bearer ${key}` };

async function ask(url: URL, request: RequestInit) {
  const answer = await fetch(url, request).catch((error: unknown) => {
    const { cause } = error as { cause?: { code?: string; message?: string } };
    throw new CommandError(
      `${url.origin} broke off or cannot be reached (${cause?.code ?? cause?.message ?? error}). Import the file again: what is stored already is not stored twice.`,
    );
  });
  const said: unknown = await answer.json().catch(() => null);
  return { ok: answer.ok, status: answer.status, said };
}

function readAnswer<S extends z.ZodType>(
  server: Server,
  ok: boolean,
  status: number,
  said: unknown,
  schema: S,
): z.output<S> {
  const found = schema.safeParse(said);
  if (ok && found.success) return found.data;
  throw toError(server, status, said);
}

function toError({ url }: Server, status: number, said: unknown): Error {
  const declined = problem.safeParse(said);
  if (declined.success)
    return new SlipdriftError(declined.data.code, declined.data.detail, { errors: declined.data.errors });
  return new CommandError(`${new URL(url).origin} answered ${status}, which is not an answer of Slipdrift.`);
}
