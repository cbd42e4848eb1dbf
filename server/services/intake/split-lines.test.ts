import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BREAKS_OFF, NOT_UTF8, TOO_LONG } from './line.ts';
import { splitLines, type TextLine } from './split-lines.ts';

async function split(chunks: Buffer[], failure?: Error): Promise<{ lines: TextLine[]; error: unknown }> {
  async function* body() {
    yield* chunks;
    if (failure !== undefined) throw failure;
  }
  const lines: TextLine[] = [];
  try {
    for await (const block of splitLines(body())) lines.push(...block);
    return { lines, error: null };
  } catch (error) {
    return { lines, error };
  }
}

/** The same bytes in other pieces. */
const inPieces = (bytes: Buffer, sizes: number[]): Buffer[] => {
  const pieces: Buffer[] = [];
  let from = 0;
  for (let i = 0; from < bytes.length; i++) {
    const size = sizes[i % sizes.length] ?? 1;
    pieces.push(bytes.subarray(from, from + size));
    from += size;
  }
  return pieces;
};
const sizes = fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 1, maxLength: 20 });

describe('splitting a body into lines', () => {
  it('gives the same lines however the body is cut into chunks', async () => {
    const line = fc.string({ unit: fc.constantFrom('a', 'é', '🚌', '"', ',', '\r', ' ') });
    await fc.assert(
      fc.asyncProperty(fc.array(line), sizes, async (texts, cut) => {
        const { lines } = await split(inPieces(Buffer.from(texts.join('\n')), cut));
        const expected = texts.map((text) => text.replace(/\r$/, ''));
        if (texts.at(-1) === '') expected.pop();
        expect(lines.map(({ text }) => text)).toEqual(expected);
        expect(lines.map(({ line: number }) => number)).toEqual(expected.map((_, i) => i + 1));
        expect(lines.every(({ fault }) => fault === null)).toBe(true);
      }),
      { seed: 4, numRuns: 300 },
    );
  });

  it('finds the line that is not UTF-8 wherever it is cut', async () => {
    const bytes = Buffer.concat([Buffer.from('one\n'), Buffer.from([0xc3, 0x28]), Buffer.from('\nthrée')]);
    for (let size = 1; size < 15; size++) {
      const { lines } = await split(inPieces(bytes, [size]));
      expect(lines.map(({ fault }) => fault)).toEqual([null, NOT_UTF8, null]);
      expect(lines[2]?.text).toBe('thrée');
    }
  });

  it('refuses a line over 64 KiB without holding it, and goes on', async () => {
    const long = Buffer.alloc(30_000, 'x');
    const { lines } = await split([Buffer.from('a\n'), long, long, long, long, Buffer.from('\nb\n')]);
    expect(lines.map(({ line, fault }) => [line, fault])).toEqual([
      [1, null],
      [2, TOO_LONG],
      [3, null],
    ]);
    expect(lines[1]?.text.length).toBeLessThan(20_000);
  });

  it.each([
    ['not UTF-8', Buffer.alloc(30_000, 0xff), NOT_UTF8],
    ['as long as allowed', Buffer.alloc(65_536, 'x'), null],
    ['a byte too long', Buffer.alloc(65_537, 'x'), TOO_LONG],
  ])(
    'says the same of a line that is %s wherever it is cut, with and without marks around it',
    async (_, long, fault) => {
      for (const [before, after] of [
        ['', '\n'],
        ['\ufeff', '\r\n'],
      ] as const) {
        const bytes = Buffer.concat([Buffer.from(before), long, Buffer.from(`${after}b`)]);
        for (const size of [bytes.length, 65_535, 65_536, 65_537, 65_540, 1000]) {
          const { lines } = await split(inPieces(bytes, [size]));
          expect(lines.map((line) => line.fault)).toEqual([fault, null]);
        }
      }
    },
  );

  it('drops the byte order mark of the first line only', async () => {
    const { lines } = await split([Buffer.from('\ufeffa\n\ufeffb')]);
    expect(lines.map(({ text }) => text)).toEqual(['a', '\ufeffb']);
  });

  it('tells a last line that breaks off from one without a newline', async () => {
    const whole = await split([Buffer.from('a\n12')]);
    expect(whole.lines.at(-1)).toEqual({ line: 2, text: '12', fault: null });
    const failure = new Error('gone');
    const broken = await split([Buffer.from('a\n12')], failure);
    expect(broken.lines.at(-1)).toEqual({ line: 2, text: '12', fault: BREAKS_OFF });
    expect(broken.error).toBe(failure);
  });
});
