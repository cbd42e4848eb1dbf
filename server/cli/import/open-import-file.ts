import { createReadStream } from 'node:fs';
import { open, stat } from 'node:fs/promises';
import { basename } from 'node:path';
import { constants, gunzipSync } from 'node:zlib';
import { CommandError } from '#server/cli/command-error.ts';
import type { DeliveryFormat } from '#server/services/intake/receive-delivery.ts';
import { sniffFormat } from '#server/services/intake/sniff-format.ts';

export interface ImportFile {
  name: string;
  format: DeliveryFormat;
  gzip: boolean;
  bytes: number;
  /** the file from its beginning, telling how far it was read */
  read(onProgress: (share: number) => void): AsyncIterable<Uint8Array>;
}

const SNIFFED_BYTES = 4096;

export async function openImportFile(path: string): Promise<ImportFile> {
  const name = basename(path);
  const { bytes, head } = await readHead(path);
  const gzip = head[0] === 0x1f && head[1] === 0x8b;
  const format = sniffFormat(name, (gzip ? gunzipHead(head) : head).toString('utf8'));
  return {
    name,
    format,
    gzip,
    bytes,
    async *read(onProgress) {
      let done = 0;
      for await (const chunk of createReadStream(path, { highWaterMark: 262_144 })) {
        yield chunk;
        done += chunk.length;
        onProgress(bytes === 0 ? 1 : Math.min(1, done / bytes));
      }
    },
  };
}

async function readHead(path: string): Promise<{ bytes: number; head: Buffer }> {
  try {
    const found = await stat(path);
    if (found.isDirectory()) throw new CommandError(`${path} is a folder; name the files in it.`);
    const file = await open(path);
    try {
      const head = Buffer.alloc(SNIFFED_BYTES);
      const { bytesRead } = await file.read(head, 0, SNIFFED_BYTES, 0);
      return { bytes: found.size, head: head.subarray(0, bytesRead) };
    } finally {
      await file.close();
    }
  } catch (error) {
    if (error instanceof CommandError) throw error;
    const { code, message } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT') throw new CommandError(`${path} does not exist.`);
    throw new CommandError(`${path} cannot be read: ${code ?? message}.`);
  }
}

function gunzipHead(head: Buffer): Buffer {
  try {
    return gunzipSync(head, { finishFlush: constants.Z_SYNC_FLUSH });
  } catch {
    return Buffer.alloc(0);
  }
}
