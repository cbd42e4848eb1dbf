import type { RawClient } from '#db/client.ts';
import { COPY_HEADER, EPOCH_2000_MS, TWO_32 } from './copy-format.ts';
import { toShortestReal } from './to-shortest-real.ts';

/** Of an array: dimensions, flags, type, then length and lower bound of the one dimension. */
const ARRAY_HEAD_BYTES = 20;

/**
 * Reads the answer of `select` in COPY's binary format, one call of `readRow` a row, which takes every column in its order: numbers
 * come as they are, which spares both ends turning them into text and back. Values stand in the text of the statement: numbers
 * and times of our own, never anything that came from outside.
 */
export async function readBinaryCopy<T>(
  client: RawClient,
  select: string,
  readRow: (from: BinaryRow) => T,
): Promise<T[]> {
  const row = createBinaryRow(await readCopyBytes(client, select));
  const rows: T[] = [];
  while (row.begin()) rows.push(readRow(row));
  return rows;
}

/** The answer of `select` as it comes. The driver brings each row for itself: to wait for every one would cost more than to read it. */
export async function readCopyBytes(client: RawClient, select: string): Promise<Buffer> {
  const stream = await client.unsafe(`copy (${select}) to stdout (format binary)`).readable();
  const parts: Buffer[] = [];
  return new Promise((settle, fail) => {
    stream
      .on('data', (part: Buffer) => parts.push(part))
      .once('end', () => settle(Buffer.concat(parts)))
      .once('error', fail);
  });
}

export type BinaryRow = ReturnType<typeof createBinaryRow>;

function createBinaryRow(bytes: Buffer) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  let at = COPY_HEADER.length;

  /** Length of the next column; -1 for null. */
  const begin = (): number => {
    const length = view.getInt32(at);
    at += 4;
    return length;
  };
  const required = <T>(value: T | null): T => {
    if (value === null) throw new Error('readBinaryCopy requires a value where a column cannot be null');
    return value;
  };

  const row = {
    /** Begins the next row; false where there is none. */
    begin(): boolean {
      const columns = view.getInt16(at);
      at += 2;
      return columns >= 0;
    },
    integer(): number {
      at += 8;
      return view.getInt32(at - 4);
    },
    boolean(): boolean | null {
      if (begin() < 0) return null;
      at += 1;
      return view.getInt8(at - 1) !== 0;
    },
    /** A 4-byte float, as the number that PostgreSQL prints. */
    real(): number {
      return required(row.realOrNull());
    },
    realOrNull(): number | null {
      if (begin() < 0) return null;
      at += 4;
      return toShortestReal(view.getFloat32(at - 4));
    },
    /** A moment in ms since 1970, from microseconds since 2000. */
    instantMs(): number {
      at += 12;
      return (view.getInt32(at - 8) * TWO_32 + view.getUint32(at - 4)) / 1000 + EPOCH_2000_MS;
    },
    text(): string {
      return required(row.textOrNull());
    },
    textOrNull(): string | null {
      const length = begin();
      if (length < 0) return null;
      at += length;
      return bytes.toString('utf8', at - length, at);
    },
    texts(): string[] | null {
      const length = begin();
      if (length < 0) return null;
      const end = at + length;
      const values: string[] = [];
      at += ARRAY_HEAD_BYTES;
      while (at < end) values.push(row.text());
      at = end;
      return values;
    },
  };
  return row;
}
