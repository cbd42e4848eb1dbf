import { isUtf8 } from 'node:buffer';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { LINE_LIMIT_BYTES } from '#server/services/intake/line.ts';
import { readNdjson } from '#server/services/intake/read-ndjson.ts';
import { fuzz, holdEqual } from './fuzz.ts';
import { inPieces, mutated, pieceSizes } from './mutate-bytes.ts';
import { comparable, holdChecked, readBody, toText } from './read-body.ts';
import { jsonLine, longLine } from './reading-arbitraries.ts';

const lines = fc.oneof(
  { weight: 80, arbitrary: fc.array(jsonLine, { maxLength: 6 }) },
  { weight: 1, arbitrary: fc.array(fc.oneof(jsonLine, longLine), { minLength: 1, maxLength: 3 }) },
);
const body = fc
  .tuple(
    fc.constantFrom('', '', '', '\ufeff'),
    lines,
    fc.constantFrom('\n', '\r\n', '\n\n'),
    fc.constantFrom('', '\n'),
  )
  .map(([start, texts, between, end]) =>
    Buffer.concat([
      Buffer.from(start),
      ...texts.flatMap((text, i) => (i === 0 ? [text] : [Buffer.from(between), text])),
      Buffer.from(end),
    ]),
  );

interface Found {
  line: number;
  /** as JSON; null for a line that is refused */
  json: string | null;
}

/** The same reader for a body in one piece, as plainly as it can be written. */
function readPlainly(bytes: Buffer): Found[] {
  const found: Found[] = [];
  let from = 0;
  for (let line = 1; from < bytes.length; line += 1) {
    const end = bytes.indexOf(10, from);
    let part = bytes.subarray(from, end < 0 ? bytes.length : end);
    from += part.length + 1;
    if (part.at(-1) === 13) part = part.subarray(0, -1);
    if (line === 1 && part.subarray(0, 3).equals(Buffer.from('\ufeff'))) part = part.subarray(3);
    const good = isUtf8(part) && part.length <= LINE_LIMIT_BYTES;
    const text = part.toString();
    if (good && text.trim() === '') continue;
    try {
      if (good) found.push({ line, json: toText(JSON.parse(text)) });
      else found.push({ line, json: null });
    } catch {
      found.push({ line, json: null });
    }
  }
  return found;
}

it('reads any bytes as NDJSON, the same however they are cut, and as a plain reader does', async () => {
  await fuzz('ndjson', fc.tuple(mutated(body, 2), pieceSizes), async ([bytes, sizes]) => {
    const whole = await readBody(readNdjson, [bytes]);
    const cut = await readBody(readNdjson, inPieces(bytes, sizes));
    holdEqual(comparable(cut), comparable(whole));
    holdChecked(whole);
    const plain = readPlainly(bytes);
    expect(
      whole.lines.map(({ line, value, errors }) => ({
        line,
        json: errors === null ? toText(value) : null,
      })),
    ).toEqual(plain);
    expect(whole.fault === null).toBe(plain.length > 0);
  });
});
