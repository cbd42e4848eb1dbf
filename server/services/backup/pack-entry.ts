import { Header } from 'tar';

const BLOCK = 512;

/** One file of a tar (POSIX ustar): header, content, and zeros up to the next block of 512 bytes. */
export function packEntry(path: string, content: Buffer, at: Date): Buffer[] {
  const header = new Header({
    path,
    size: content.length,
    mode: 0o600,
    uid: 0,
    gid: 0,
    type: 'File',
    mtime: at,
  });
  const head = Buffer.alloc(BLOCK);
  header.encode(head);
  const rest = content.length % BLOCK;
  return rest === 0 ? [head, content] : [head, content, Buffer.alloc(BLOCK - rest)];
}

/** A tar ends with two empty blocks. */
export const tarEnd = (): Buffer => Buffer.alloc(2 * BLOCK);
