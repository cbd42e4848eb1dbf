import type { Look } from '#server/contract/looks.ts';
import type { DeliveryReply } from '#server/contract/receipts.ts';
import { noAnswer, readProblem } from './problem-error.ts';
import { type Query, writeQuery } from './write-query.ts';

export interface FileToSend {
  file: File;
  format: Look['format'];
  query: Query;
  /** the same with each try of the same file, so that the next goes on where one was cut off */
  idempotencyKey?: string;
  /** bytes that have left */
  onSent: (bytes: number) => void;
  signal: AbortSignal;
}

const mediaTypes: Record<Look['format'], string> = {
  csv: 'text/csv',
  ndjson: 'application/x-ndjson',
  json: 'application/json',
  can: 'text/x-candump',
};

/** A whole file is stored. */
export const storeFile = (one: FileToSend): Promise<DeliveryReply> => send('/readings', one);

/** A whole file is looked at and nothing of it stored. */
export const tryFile = (one: FileToSend): Promise<Look> => send('/readings/look', one);

/** Of a request made by `fetch` a browser does not say how much has left. */
async function send<T>(path: string, one: FileToSend): Promise<T> {
  const { file, format, query, idempotencyKey, onSent, signal } = one;
  const first = new Uint8Array(await file.slice(0, 2).arrayBuffer());
  const response = await new Promise<Response>((resolve, reject) => {
    const request = new XMLHttpRequest();
    request.open('POST', `/api${writeQuery(path, query)}`);
    request.setRequestHeader('Accept', 'application/json');
    request.setRequestHeader('Content-Type', mediaTypes[format]);
    if (first[0] === 0x1f && first[1] === 0x8b) request.setRequestHeader('Content-Encoding', 'gzip');
    if (idempotencyKey !== undefined) request.setRequestHeader('Idempotency-Key', idempotencyKey);
    request.upload.onprogress = ({ loaded }) => onSent(loaded);
    request.onload = () => {
      const retryAfter = request.getResponseHeader('retry-after');
      resolve(
        new Response(request.responseText, {
          status: request.status,
          headers: retryAfter === null ? {} : { 'retry-after': retryAfter },
        }),
      );
    };
    request.onerror = () => reject(noAnswer());
    request.onabort = () => reject(new DOMException('was stopped', 'AbortError'));
    signal.addEventListener('abort', () => request.abort(), { once: true });
    if (signal.aborted) request.onabort(new ProgressEvent('abort'));
    else request.send(file);
  });
  if (!response.ok) throw await readProblem(response);
  return (await response.json()) as T;
}
