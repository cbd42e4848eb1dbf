import fc from 'fast-check';
import { expect, it } from 'vitest';
import { readJson } from '#server/services/intake/read-json.ts';
import { fuzz, holdEqual } from './fuzz.ts';
import { hostileText, jsonToken } from './hostile-values.ts';
import { inPieces, mutated, pieceSizes } from './mutate-bytes.ts';
import { comparable, holdChecked, readBody, toText } from './read-body.ts';
import { jsonLine, longLine } from './reading-arbitraries.ts';

const elements = fc.oneof(
  { weight: 80, arbitrary: fc.array(jsonLine, { maxLength: 6 }) },
  { weight: 1, arbitrary: fc.array(fc.oneof(jsonLine, longLine), { minLength: 1, maxLength: 3 }) },
);
const member = fc
  .tuple(fc.oneof(hostileText, fc.constant('readings')), jsonToken)
  .map(([name, token]) => `${JSON.stringify(name)}:${token},`);
const before = fc.array(member, { maxLength: 2 }).map((members) => members.join(''));
const body = fc
  .tuple(
    fc.constantFrom('', '', '', '\ufeff', ' \n'),
    elements,
    fc.constantFrom(',', ' ,\n', ',,'),
    fc.option(before, { nil: null }),
    fc.constantFrom('', '', '\n', ' x'),
  )
  .map(([start, texts, between, others, end]) =>
    Buffer.concat([
      Buffer.from(start),
      Buffer.from(others === null ? '[' : `{${others}"readings": [`),
      ...texts.flatMap((text, i) => (i === 0 ? [text] : [Buffer.from(between), text])),
      Buffer.from(others === null ? ']' : ']}'),
      Buffer.from(end),
    ]),
  );

/** What the body holds by JSON.parse: the list, null where it is another shape, undefined where it is not JSON. */
function parseWhole(bytes: Buffer): unknown[] | null | undefined {
  const text = new TextDecoder('utf-8', { fatal: true });
  try {
    const value: unknown = JSON.parse(text.decode(bytes));
    if (Array.isArray(value)) return value;
    const readings =
      typeof value === 'object' && value !== null && 'readings' in value ? value.readings : null;
    return Array.isArray(readings) ? readings : null;
  } catch {
    return undefined;
  }
}

it('reads any bytes as JSON, the same however they are cut, and never more than JSON.parse finds', async () => {
  await fuzz('json', fc.tuple(mutated(body, 2), pieceSizes), async ([bytes, sizes]) => {
    const whole = await readBody(readJson, [bytes]);
    const cut = await readBody(readJson, inPieces(bytes, sizes));
    holdEqual(comparable(cut), comparable(whole));
    holdChecked(whole);
    const clean = whole.fault === null && whole.lines.every(({ errors }) => errors === null);
    const parsed = parseWhole(bytes);
    if (clean && Array.isArray(parsed))
      expect(whole.lines.map(({ value }) => toText(value))).toEqual(parsed.map((one) => toText(one)));
    // What the reader skips beside "readings" it does not read, so it may take a body that is no JSON there.
    if (parsed === undefined && !hasOtherMembers(bytes)) expect(clean).toBe(false);
    if (parsed === null) expect(clean).toBe(false);
  });
});

const hasOtherMembers = (bytes: Buffer): boolean => !/^(\ufeff|\s)*\[/.test(bytes.toString());
