import { once } from 'node:events';
import { createGunzip, type Gunzip } from 'node:zlib';
import { BodyFault } from './body-fault.ts';

/** gzip unfolds at most 1,032-fold: pieces of this size keep what is unfolded at once below 17 MB. */
const PIECE_BYTES = 16_384;

/**
 * Unfolds a gzip body piece by piece. Everything that came before a fault is handed on before the fault is thrown,
 * which piping through a stream does not promise.
 */
export async function* gunzipBody(chunks: AsyncIterable<Buffer>): AsyncGenerator<Buffer> {
  const gunzip = createGunzip({ chunkSize: 65_536 });
  const unfolded: Buffer[] = [];
  gunzip.on('data', (data: Buffer) => unfolded.push(data));
  gunzip.on('error', () => {});
  // Zeros after the last member are padding, as gzip itself takes them: the stream then ends before it is told to.
  let ended = false;
  gunzip.on('end', () => {
    ended = true;
  });
  let wireBytes = 0;
  try {
    for await (const chunk of chunks)
      for (let from = 0; from < chunk.length; from += PIECE_BYTES) {
        const piece = chunk.subarray(from, from + PIECE_BYTES);
        wireBytes += piece.length;
        if (ended) continue;
        const fault = await write(gunzip, piece);
        yield* unfolded.splice(0);
        if (fault !== null) throw brokenGzip(wireBytes);
      }
    if (wireBytes === 0 || ended) return;
    const fault = await finish(gunzip);
    yield* unfolded.splice(0);
    if (fault !== null) throw brokenGzip(wireBytes);
  } finally {
    gunzip.destroy();
  }
}

/** After a fault or its end the stream answers no more, so both are listened for as well. */
function write(gunzip: Gunzip, piece: Buffer): Promise<Error | null> {
  return new Promise((resolve) => {
    const done = () => settle(null);
    const settle = (fault: Error | null) => {
      gunzip.off('error', settle);
      gunzip.off('end', done);
      resolve(fault);
    };
    gunzip.once('error', settle);
    gunzip.once('end', done);
    gunzip.write(piece, done);
  });
}

async function finish(gunzip: Gunzip): Promise<unknown> {
  try {
    const ended = once(gunzip, 'end');
    gunzip.end();
    await ended;
    return null;
  } catch (error) {
    return error;
  }
}

const brokenGzip = (wireBytes: number): BodyFault =>
  new BodyFault(
    'body_broken',
    `The gzip data is broken or ends too early, within its first ${wireBytes} bytes.`,
  );
