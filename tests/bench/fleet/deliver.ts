import { sendBodies } from '#tests/bench/deliveries/send-bodies.ts';

const LINES = 20_000;

/** Delivers rows as NDJSON over one connection, or two where each vehicle stays with one of them; answers how many were stored. */
export async function deliver(
  url: string,
  rows: Iterable<object>,
): Promise<{ seconds: number; stored: number }> {
  const bodies: Buffer<ArrayBuffer>[] = [];
  let lines: string[] = [];
  for (const row of rows) {
    lines.push(JSON.stringify(row));
    if (lines.length < LINES) continue;
    bodies.push(Buffer.from(lines.join('\n')));
    lines = [];
  }
  if (lines.length > 0) bodies.push(Buffer.from(lines.join('\n')));
  return sendBodies(url, [bodies], 'NDJSON');
}
