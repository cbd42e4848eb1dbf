const HEAD_BYTES = 524_288;

export interface WithHead {
  /** its first bytes, whole where the body is no longer */
  head: Buffer;
  isAll: boolean;
  /** the body from its beginning */
  chunks: AsyncGenerator<Buffer>;
}

/** Looks at the beginning of a body and hands on all of it. A fault that comes after the beginning comes in its place. */
export async function takeHead(chunks: AsyncGenerator<Buffer>): Promise<WithHead> {
  const taken: Buffer[] = [];
  let bytes = 0;
  let fault: { error: unknown } | null = null;
  let isAll = false;
  while (bytes < HEAD_BYTES && !isAll && fault === null) {
    try {
      const next = await chunks.next();
      if (next.done === true) isAll = true;
      else {
        taken.push(next.value);
        bytes += next.value.length;
      }
    } catch (error) {
      fault = { error };
    }
  }
  async function* all(): AsyncGenerator<Buffer> {
    yield* taken;
    if (fault !== null) throw fault.error;
    if (!isAll) yield* chunks;
  }
  return { head: Buffer.concat(taken).subarray(0, HEAD_BYTES), isAll, chunks: all() };
}

/** The beginning of a file, less the line that its end cuts. */
export function leaveCutLine(bytes: Buffer): Buffer {
  const last = bytes.lastIndexOf(10);
  return last < 0 ? bytes : bytes.subarray(0, last + 1);
}
