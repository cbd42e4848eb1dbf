import fc from 'fast-check';
import { expect, it } from 'vitest';
import { JsonBytes } from './json-bytes.ts';

const out = new JsonBytes();
const written = (write: () => void): string => {
  write();
  return Buffer.from(out.take()).toString();
};

const numbers = fc.oneof(
  fc.double({ min: -1e5, max: 1e5, noNaN: true }),
  fc.double(),
  fc.integer({ min: -100, max: 100 }).map((value) => value / 20),
);

it('writes rounded numbers as JSON does', () => {
  fc.assert(
    fc.property(numbers, (value) => {
      expect(written(() => out.tenth(value))).toBe(JSON.stringify(Math.round(value * 10) / 10));
      expect(written(() => out.whole(value))).toBe(JSON.stringify(Math.round(value)));
    }),
    { numRuns: 2000, examples: [[0], [-0], [-0.04], [0.05], [1e13], [1e15], [1e300]] },
  );
});

it('writes moments as JSON does', () => {
  const moments = fc.oneof(
    fc.double({ min: 0, max: 4e12, noNaN: true }),
    fc.double({ min: -6e13, max: 2.6e14, noNaN: true }),
  );
  fc.assert(
    fc.property(moments, (ms) => {
      expect(written(() => out.moment(ms))).toBe(JSON.stringify(new Date(ms)));
    }),
    {
      numRuns: 2000,
      examples: [
        ['1970-01-01'],
        ['2000-02-29T23:59:59.999Z'],
        ['2024-02-29'],
        ['2024-03-01'],
        ['2100-03-01'],
        ['9999-12-31'],
      ].map(([text]) => [Date.parse(text ?? '')]) as [number][],
    },
  );
});

it('writes anything else as JSON does, and much of it', () => {
  const many = Array.from({ length: 30_000 }, (_, i) => ({ i, text: 'é"\n' }));
  expect(written(() => out.value(many))).toBe(JSON.stringify(many));
  expect(written(() => out.plain(Buffer.from('[1')))).toBe('[1');
});
