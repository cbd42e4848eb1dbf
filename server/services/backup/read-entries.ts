import { createReadStream } from 'node:fs';
import { pipeline } from 'node:stream/promises';
import { createGunzip } from 'node:zlib';
import { Parser, type ReadEntry } from 'tar';
import { BackupError } from './backup-error.ts';

export interface Entry {
  path: string;
  content: Buffer;
}

/** What we write is far smaller; a foreign archive must not fill the memory. */
const LARGEST_ENTRY_BYTES = 64 * 1024 * 1024;
const GZIP = Buffer.from([0x1f, 0x8b]);

export interface ReadOptions {
  onBytes?: (bytes: number) => void;
  signal?: AbortSignal | undefined;
}

export const notABackup = (path: string): BackupError =>
  new BackupError(`${path} is not a backup of Slipdrift. Nothing was changed.`);
export const damaged = (path: string, what: string): BackupError =>
  new BackupError(`${path} is damaged: ${what}. Nothing was changed; take another backup.`);

/** The files of a packed tar, one after another, each whole in memory. */
export async function* readEntries(path: string, options: ReadOptions = {}): AsyncGenerator<Entry> {
  const ready: Entry[] = [];
  let fault: Error | null = null;
  const parser = new Parser({ strict: true });
  parser.on('error', (error: Error) => {
    fault ??= error;
  });
  parser.on('entry', (entry: ReadEntry) => {
    if (entry.size > LARGEST_ENTRY_BYTES) fault ??= notABackup(path);
    const chunks: Buffer[] = [];
    entry.on('data', (chunk) => {
      if (fault === null) chunks.push(Buffer.from(chunk));
    });
    entry.on('end', () => ready.push({ path: entry.path, content: Buffer.concat(chunks) }));
  });
  const settle = () => {
    if (fault instanceof BackupError) throw fault;
    if (fault !== null) throw damaged(path, 'it is no proper archive inside');
  };
  for await (const chunk of unpack(path, options)) {
    parser.write(chunk);
    settle();
    yield* ready.splice(0);
  }
  parser.end();
  settle();
  yield* ready.splice(0);
}

async function* unpack(path: string, { onBytes, signal }: ReadOptions): AsyncGenerator<Buffer> {
  let first = true;
  async function* packed() {
    for await (const chunk of createReadStream(path, { highWaterMark: 262_144, signal })) {
      if (first && !(chunk as Buffer).subarray(0, 2).equals(GZIP)) throw notABackup(path);
      first = false;
      yield chunk as Buffer;
      onBytes?.((chunk as Buffer).length);
    }
    if (first) throw notABackup(path);
  }
  const gunzip = createGunzip({ chunkSize: 262_144 });
  try {
    const piped = pipeline(packed, gunzip);
    // Met at the end, or below as an error of the unpacker.
    piped.catch(() => {});
    for await (const chunk of gunzip) yield chunk as Buffer;
    await piped;
  } catch (error) {
    throw explain(error, path);
  }
}

function explain(error: unknown, path: string): unknown {
  const { code, message } = error as { code?: string; message?: string };
  if (code === 'Z_BUF_ERROR') return damaged(path, 'it ends before its end');
  if (code?.startsWith('Z_')) return damaged(path, `it cannot be unpacked (${message})`);
  if (code === 'ENOENT') return new BackupError(`${path} does not exist.`);
  if (code === 'EISDIR') return new BackupError(`${path} is a folder; name a backup in it.`);
  if (code === 'EACCES') return new BackupError(`${path} may not be read by this user.`);
  return error;
}
