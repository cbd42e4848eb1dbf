import { readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { brotliCompress, constants, gzip } from 'node:zlib';

const TEXT = /\.(js|css|html|svg|json|map|txt|webmanifest)$/;
/** Below a packet or so, compressing gains nothing. */
const SMALLEST_BYTES = 1024;

/** Puts a brotli and a gzip twin beside every text file, so that the server never compresses them while it serves. */
export async function compressFiles(folder: string): Promise<void> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  const files = entries.filter((entry) => entry.isFile() && TEXT.test(entry.name));
  await Promise.all(files.map((file) => compressFile(join(file.parentPath, file.name))));
}

async function compressFile(path: string): Promise<void> {
  const content = await readFile(path);
  if (content.length < SMALLEST_BYTES) return;
  const quality = { params: { [constants.BROTLI_PARAM_QUALITY]: 9 } };
  await writeFile(`${path}.br`, await promisify(brotliCompress)(content, quality));
  await writeFile(`${path}.gz`, await promisify(gzip)(content, { level: 9 }));
}
