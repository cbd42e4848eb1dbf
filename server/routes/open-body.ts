import { SlipdriftError } from '#server/errors.ts';

/** A sender that is still sending may not look for the answer: so much of what it sends is read and dropped first. */
const DRAIN_BYTES = 67_108_864;
const DRAIN_MS = 5000;
/** A gateway on the road may be without its network for some seconds: after so long it begins anew anyway. */
const IDLE_MS = 60_000;

/**
 * The body of a request as chunks, which may be left early without cutting the connection. `drain` then reads the rest,
 * up to a limit, and answers whether there is no more: else the connection must be closed after the answer. A sender of
 * whom nothing comes for `idleMs` is given up, so that nothing is kept for it: not its key, not its place in a stop.
 */
export function openBody(stream: ReadableStream<Uint8Array> | null, idleMs = IDLE_MS) {
  const reader = stream?.getReader();
  let stalled = false;

  async function* chunks(): AsyncGenerator<Uint8Array> {
    for (;;) {
      if (reader === undefined) return;
      const next = await readInTime(reader, Date.now() + idleMs);
      if (next === null) {
        stalled = true;
        throw new SlipdriftError(
          'body_stalled',
          `Nothing more of the body came for ${Math.round(idleMs / 1000)} s. Send the request again.`,
        );
      }
      if (next.done) return;
      yield next.value;
    }
  }

  async function drain(): Promise<boolean> {
    if (reader === undefined) return true;
    if (stalled) return false;
    const latestMs = Date.now() + DRAIN_MS;
    let bytes = 0;
    try {
      while (bytes < DRAIN_BYTES && Date.now() < latestMs) {
        const next = await readInTime(reader, latestMs);
        if (next === null) return false;
        if (next.done) return true;
        bytes += next.value.byteLength;
      }
    } catch {
      // The sender is gone already; nobody waits for the answer.
    }
    return false;
  }

  return { chunks: chunks(), drain };
}

async function readInTime(reader: ReadableStreamDefaultReader<Uint8Array>, latestMs: number) {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<null>((resolve) => {
    timer = setTimeout(() => resolve(null), latestMs - Date.now());
  });
  try {
    return await Promise.race([reader.read(), late]);
  } finally {
    clearTimeout(timer);
  }
}
