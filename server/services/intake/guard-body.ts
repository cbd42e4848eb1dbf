import { SlipdriftError } from '#server/errors.ts';
import { BodyFault } from './body-fault.ts';
import { gunzipBody } from './gunzip-body.ts';

/** Telemetry shrinks 5- to 30-fold; what unfolds more than this, after the first bytes, was made to do harm. */
const UNFOLD_LIMIT = 200;
const UNFOLD_FREE_BYTES = 16_777_216;
const GZIP_MAGIC = Buffer.from([0x1f, 0x8b]);

/** Unfolds a body where it is gzip, and ends it with a fault where it passes the limit, on the wire or unfolded. */
export function guardBody(
  body: AsyncIterable<Uint8Array>,
  gzip: boolean,
  limitBytes: number,
): AsyncGenerator<Buffer> {
  let wireBytes = 0;
  let bodyBytes = 0;
  const tooLarge = (what: string) => {
    const limit = `${limitBytes / 1_048_576} MiB`;
    return new BodyFault('body_too_large', `The body is ${what} the limit of ${limit}.`);
  };

  async function* countWire(): AsyncGenerator<Buffer> {
    for await (const bytes of namingBreaks(body)) {
      wireBytes += bytes.byteLength;
      if (wireBytes > limitBytes) throw tooLarge('larger than');
      yield Buffer.isBuffer(bytes) ? bytes : Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    }
  }

  async function* countBody(): AsyncGenerator<Buffer> {
    for await (const chunk of gzip ? gunzipBody(countWire()) : countWire()) {
      if (bodyBytes === 0 && chunk.subarray(0, 2).equals(GZIP_MAGIC))
        throw new BodyFault(
          'body_broken',
          'The body is gzip data; say so with the header Content-Encoding: gzip.',
        );
      bodyBytes += chunk.length;
      if (bodyBytes > limitBytes) throw tooLarge(gzip ? 'unfolded larger than' : 'larger than');
      if (gzip && bodyBytes > UNFOLD_FREE_BYTES && bodyBytes > wireBytes * UNFOLD_LIMIT)
        throw new BodyFault(
          'body_too_large',
          `The gzip body unfolds to more than ${UNFOLD_LIMIT} times its size.`,
        );
      yield chunk;
    }
  }

  return countBody();
}

/** A sender that goes away or falls silent is a fault of the body, told apart from every fault of ours. */
async function* namingBreaks(body: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  const iterator = body[Symbol.asyncIterator]();
  let ended = false;
  try {
    for (;;) {
      const next = await iterator.next().catch((cause: unknown) => {
        ended = true;
        const stalled = cause instanceof SlipdriftError && cause.code === 'body_stalled';
        throw new BodyFault(
          stalled ? 'body_stalled' : 'body_broken',
          stalled ? cause.message.replace(/ Send .*$/, '') : 'The connection ended before the body did.',
          { cause, cutOff: true },
        );
      });
      ended = next.done === true;
      if (next.done === true) return;
      yield next.value;
    }
  } finally {
    if (!ended) await iterator.return?.();
  }
}
