import { createHash } from 'node:crypto';
import { constants } from 'node:fs';
import { type FileHandle, open } from 'node:fs/promises';
import { gunzipSync, constants as zlib } from 'node:zlib';
import type { DeliveryFormat } from '#server/services/intake/receive-delivery.ts';
import { sniffFormat } from '#server/services/intake/sniff-format.ts';

const CHUNK_BYTES = 262_144;
const SNIFFED_BYTES = 4096;

export interface OpenedFile {
  format: DeliveryFormat;
  gzip: boolean;
  sha256: string;
  /** from its beginning; ends with an error where `signal` says so */
  read(signal: AbortSignal): AsyncGenerator<Buffer>;
  /** whether it is another than when it was opened */
  hasChanged(): Promise<boolean>;
  close(): Promise<void>;
}

/** Opens a file that is no link, and reads it once through for its hash. */
export async function openFile(path: string, name: string, signal: AbortSignal): Promise<OpenedFile> {
  const file = await open(path, constants.O_RDONLY | constants.O_NOFOLLOW);
  try {
    const { size, mtimeMs } = await file.stat();
    const hash = createHash('sha256');
    let head = Buffer.alloc(0);
    for await (const chunk of readFrom(file, signal)) {
      hash.update(chunk);
      if (head.length < SNIFFED_BYTES) head = Buffer.concat([head, chunk]).subarray(0, SNIFFED_BYTES);
    }
    const gzip = head[0] === 0x1f && head[1] === 0x8b;
    return {
      format: sniffFormat(name, (gzip ? unfold(head) : head).toString('utf8')),
      gzip,
      sha256: hash.digest('hex'),
      read: (until) => readFrom(file, until),
      async hasChanged() {
        const now = await file.stat();
        return now.size !== size || now.mtimeMs !== mtimeMs;
      },
      close: () => file.close(),
    };
  } catch (error) {
    await file.close();
    throw error;
  }
}

async function* readFrom(file: FileHandle, signal: AbortSignal): AsyncGenerator<Buffer> {
  for (let at = 0; ; ) {
    signal.throwIfAborted();
    const buffer = Buffer.allocUnsafe(CHUNK_BYTES);
    const { bytesRead } = await file.read(buffer, 0, CHUNK_BYTES, at);
    if (bytesRead === 0) return;
    at += bytesRead;
    yield buffer.subarray(0, bytesRead);
  }
}

function unfold(head: Buffer): Buffer {
  try {
    return gunzipSync(head, { finishFlush: zlib.Z_SYNC_FLUSH });
  } catch {
    return Buffer.alloc(0);
  }
}
