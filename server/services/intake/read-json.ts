import type { Line } from './line.ts';
import { createElementScanner } from './scan-elements.ts';

/** A JSON array of readings, or an object with the array `readings`; the line is the element's number. */
export async function* readJson(chunks: AsyncIterable<Buffer>): AsyncGenerator<Line[]> {
  const scanner = createElementScanner();
  try {
    for await (const chunk of chunks) {
      const { lines, fault } = scanner.push(chunk);
      if (lines.length > 0) yield lines;
      if (fault !== null) throw fault;
    }
  } catch (error) {
    const { lines } = scanner.end();
    if (lines.length > 0) yield lines;
    throw error;
  }
  const { lines, fault } = scanner.end();
  if (lines.length > 0) yield lines;
  if (fault !== null) throw fault;
}
