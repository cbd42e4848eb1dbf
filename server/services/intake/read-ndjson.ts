import { BodyFault } from './body-fault.ts';
import { badLine, type Line } from './line.ts';
import { parseJsonLine } from './parse-json-line.ts';
import { splitLines } from './split-lines.ts';

/** Newline-delimited JSON: one reading a line, empty lines skipped. */
export async function* readNdjson(chunks: AsyncIterable<Buffer>): AsyncGenerator<Line[]> {
  let empty = true;
  for await (const block of splitLines(chunks)) {
    const lines: Line[] = [];
    for (const { line, text, fault } of block)
      if (fault !== null) lines.push(badLine(line, text, fault));
      else if (text.trim() !== '') lines.push(parseJsonLine(line, text));
    if (lines.length === 0) continue;
    empty = false;
    yield lines;
  }
  if (empty) throw new BodyFault('body_empty', 'The body is empty. Send one reading a line.');
}
