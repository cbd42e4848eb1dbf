import { BodyFault } from './body-fault.ts';
import { badLine, type Line } from './line.ts';
import { parseJsonLine } from './parse-json-line.ts';
import type { PlainRows } from './plain/plain-rows.ts';
import { splitLines } from './split-lines.ts';

/** Newline-delimited JSON: one reading a line, empty lines skipped. Lines that `plain` takes are not among those that come out. */
export async function* readNdjson(
  chunks: AsyncIterable<Buffer>,
  plain: PlainRows | null = null,
): AsyncGenerator<Line[]> {
  let empty = true;
  const take =
    plain === null
      ? null
      : (bytes: Buffer, from: number, to: number, line: number): boolean => {
          const isTaken = plain.take(bytes, from, to, line);
          if (isTaken) empty = false;
          return isTaken;
        };
  for await (const block of splitLines(chunks, take)) {
    const lines: Line[] = [];
    for (const { line, text, fault } of block)
      if (fault !== null) lines.push(badLine(line, text, fault));
      else if (text.trim() !== '') lines.push(parseJsonLine(line, text));
    if (lines.length > 0) empty = false;
    yield lines;
  }
  if (empty) throw new BodyFault('body_empty', 'The body is empty. Send one reading a line.');
}
