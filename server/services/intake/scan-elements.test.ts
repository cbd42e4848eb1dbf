import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Line } from './line.ts';
import { createElementScanner } from './scan-elements.ts';

function scan(text: string, size = 1_000_000): { lines: Line[]; fault: string | null } {
  const bytes = Buffer.from(text);
  const scanner = createElementScanner();
  const lines: Line[] = [];
  for (let from = 0; from < bytes.length; from += size) {
    const pushed = scanner.push(bytes.subarray(from, from + size));
    lines.push(...pushed.lines);
    if (pushed.fault !== null) return { lines, fault: pushed.fault.message };
  }
  const ended = scanner.end();
  lines.push(...ended.lines);
  return { lines, fault: ended.fault?.message ?? null };
}

const json = fc.jsonValue({ maxDepth: 3 });

describe('finding the elements of a JSON body', () => {
  it('agrees with JSON.parse on any array, however it is spaced and cut', () => {
    fc.assert(
      fc.property(
        fc.array(json),
        fc.constantFrom(undefined, 1, '\t'),
        fc.integer({ min: 1, max: 30 }),
        (values, space, size) => {
          const text = JSON.stringify(values, null, space);
          const { lines, fault } = scan(text, size);
          expect(fault).toBeNull();
          expect(lines.map(({ value }) => value)).toEqual(JSON.parse(text));
          expect(lines.map(({ line }) => line)).toEqual(values.map((_, i) => i + 1));
        },
      ),
      { seed: 5, numRuns: 400 },
    );
  });

  it('agrees with JSON.parse on the array readings among any other members', () => {
    const members = fc.dictionary(
      fc.string().filter((key) => key !== 'readings'),
      json,
      { maxKeys: 4 },
    );
    fc.assert(
      fc.property(
        members,
        fc.array(json),
        members,
        fc.integer({ min: 1, max: 30 }),
        (before, values, after, size) => {
          const text = JSON.stringify({ ...before, readings: values, ...after });
          const { lines, fault } = scan(text, size);
          expect(fault).toBeNull();
          expect(lines.map(({ value }) => value)).toEqual(JSON.parse(text).readings);
        },
      ),
      { seed: 6, numRuns: 400 },
    );
  });

  it('never takes a text that JSON.parse declines as whole and good', () => {
    const noise = fc.string({
      unit: fc.constantFrom('[', ']', '{', '}', '"', ',', ':', '\\', '1', 'a', ' '),
    });
    fc.assert(
      fc.property(fc.array(json, { maxLength: 3 }), noise, fc.nat(200), (values, added, place) => {
        const good = JSON.stringify(values);
        const text = good.slice(0, place) + added + good.slice(place);
        const { lines, fault } = scan(text);
        if (fault !== null || lines.some(({ errors }) => errors !== null)) return;
        const parsed = JSON.parse(text);
        expect(lines.map(({ value }) => value)).toEqual(Array.isArray(parsed) ? parsed : parsed.readings);
      }),
      { seed: 7, numRuns: 3000 },
    );
  });

  it('names the element within which the text ends, and keeps what there is of it', () => {
    const { lines, fault } = scan('[{"a":1},{"a":');
    expect(fault).toBe('The JSON text ends too early within element 2.');
    expect(lines[1]).toMatchObject({ line: 2, raw: '{"a":', errors: [{ field: '' }] });
  });

  it('goes on after an element over 64 KiB', () => {
    const { lines, fault } = scan(`[1,"${'x'.repeat(100_000)}",3]`, 1000);
    expect(fault).toBeNull();
    expect(lines.map(({ value }) => value)).toEqual([1, undefined, 3]);
    expect(lines[1]?.errors?.[0]?.message).toBe('is longer than 64 KiB');
  });

  it.each([
    ['{"readings":[],"readings":[]}', 'breaks at byte 27'],
    ['{"readings":{"a":[1]}}', 'breaks at byte 13'],
    ['[1] 2', 'breaks at byte 5 after element 1'],
    ['{"other":[1]}', 'There is no "readings"'],
    ['{"readings":[1]', 'ends too early'],
    [' ', 'The body is empty'],
  ])('says what is wrong with %s', (text, message) => {
    expect(scan(text).fault).toContain(message);
  });

  it.each(['\ufeff', '\u00a0', '\u2028', '\v'])('takes nothing for blank that JSON does not: %j', (blank) => {
    expect(scan(`[${blank}1]`).lines[0]?.errors).not.toBeNull();
    expect(scan(`[1${blank}]`).lines[0]?.errors).not.toBeNull();
    expect(scan(`[${blank}]`).lines[0]?.errors).not.toBeNull();
    expect(scan('[ \t\r\n1 \t\r\n]').lines[0]).toMatchObject({ raw: '1', errors: null });
  });
});
