import { createHash } from 'node:crypto';

export interface HashedBody {
  chunks: AsyncGenerator<Buffer>;
  /** SHA-256 of what came, once it was read to its end */
  sha256(): string;
}

/** Lets a body through as it is and makes a hash of it, by which it is known again: where a key of its sender's came with it. */
export function hashBody(body: AsyncIterable<Buffer>): HashedBody {
  const hash = createHash('sha256');
  async function* update(): AsyncGenerator<Buffer> {
    for await (const chunk of body) {
      hash.update(chunk);
      yield chunk;
    }
  }
  return { chunks: update(), sha256: () => hash.digest('hex') };
}
