/** A sender that is still sending may not look for the answer: so much of what it sends is read and dropped first. */
const DRAIN_BYTES = 67_108_864;
const DRAIN_MS = 5000;

/**
 * The body of a request as chunks, which may be left early without cutting the connection. `drain` then reads the rest,
 * up to a limit, and answers whether there is no more: else the connection must be closed after the answer.
 */
export function openBody(stream: ReadableStream<Uint8Array> | null) {
  const reader = stream?.getReader();

  async function* chunks(): AsyncGenerator<Uint8Array> {
    for (;;) {
      const next = await reader?.read();
      if (next === undefined || next.done) return;
      yield next.value;
    }
  }

  async function drain(): Promise<boolean> {
    if (reader === undefined) return true;
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
