import { readFile } from 'node:fs/promises';
import { gunzipSync } from 'node:zlib';
import { CommandError } from '#server/cli/command-error.ts';

/** As much as a server takes. */
const MOST_BYTES = 16 * 1024 * 1024;

export async function readSetUpFile(path: string): Promise<Uint8Array> {
  const bytes = await readFile(path).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') throw new CommandError(`${path} does not exist.`);
    throw new CommandError(`${path} cannot be read: ${error.code ?? error.message}.`);
  });
  if (bytes.length > MOST_BYTES) throw tooLarge(path);
  return bytes[0] === 0x1f && bytes[1] === 0x8b ? unfold(path, bytes) : bytes;
}

function unfold(path: string, bytes: Buffer): Uint8Array {
  try {
    return gunzipSync(bytes, { maxOutputLength: MOST_BYTES });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ERR_BUFFER_TOO_LARGE') throw tooLarge(path);
    throw new CommandError(`${path} is broken: it begins as gzip and cannot be unpacked.`);
  }
}

const tooLarge = (path: string) =>
  new CommandError(`${path} is over 16 MiB. Nothing was changed; set it up in parts.`);
