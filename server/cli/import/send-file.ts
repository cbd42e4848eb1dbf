import { CommandError } from '#server/cli/command-error.ts';
import { CAN_LOG_TYPE } from '#server/contract/can-log.ts';
import { problem } from '#server/contract/problems.ts';
import { brokenDelivery, deliveryReply } from '#server/contract/receipts.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Imported } from './import-target.ts';
import type { ImportFile } from './open-import-file.ts';

const CONTENT_TYPES = {
  csv: 'text/csv',
  ndjson: 'application/x-ndjson',
  json: 'application/json',
  can: CAN_LOG_TYPE,
};

interface Server {
  url: string;
  key: string | null;
  ignoreUnknownColumns: boolean;
}

/** Sends a file as any gateway would. */
export async function sendFile(
  server: Server,
  file: ImportFile,
  body: AsyncIterable<Uint8Array>,
): Promise<Imported> {
  const url = new URL('/api/readings', server.url);
  if (server.ignoreUnknownColumns) url.searchParams.set('unknown_columns', 'ignore');
  const answer = await fetch(url, {
    method: 'POST',
    headers: {
      'content-type': CONTENT_TYPES[file.format],
      ...(file.gzip ? { 'content-encoding': 'gzip' } : {}),
      ...(server.key === null ? {} : { authorization: `Bearer ${server.key}` }),
    },
    // Node's fetch takes any asynchronous iterable; the DOM's types do not know it.
    body: body as unknown as BodyInit,
    duplex: 'half',
  } as RequestInit).catch((error: unknown) => {
    const { cause } = error as { cause?: { code?: string; message?: string } };
    throw new CommandError(
      `${url.origin} broke off or cannot be reached (${cause?.code ?? cause?.message ?? error}). Import the file again: what is stored already is not stored twice.`,
    );
  });
  const said: unknown = await answer.json().catch(() => null);
  const reply = deliveryReply.safeParse(said);
  if (answer.ok && reply.success) return { reply: reply.data, fault: null };
  const broken = brokenDelivery.safeParse(said);
  if (broken.success && broken.data.delivery !== undefined)
    return { reply: broken.data.delivery, fault: broken.data.detail };
  const declined = problem.safeParse(said);
  if (declined.success)
    throw new SlipdriftError(declined.data.code, declined.data.detail, { errors: declined.data.errors });
  throw new CommandError(`${url.origin} answered ${answer.status}, which is not an answer of Slipdrift.`);
}
