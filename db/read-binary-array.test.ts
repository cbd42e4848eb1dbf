import { expect, it } from 'vitest';
import { readBinaryArray } from './read-binary-array.ts';

/** As PostgreSQL's `array_send` writes it: int4 dimensions, flags, type, then length and lower bound of each. */
function sent(type: number, dimensions: number[], elements: (Buffer | null)[]): string {
  const ints = (...values: number[]) => {
    const bytes = Buffer.alloc(4 * values.length);
    for (const [i, value] of values.entries()) bytes.writeInt32BE(value, 4 * i);
    return bytes;
  };
  const head = ints(dimensions.length, 0, type, ...dimensions.flatMap((length) => [length, 1]));
  const parts = elements.map((one) => (one === null ? ints(-1) : Buffer.concat([ints(one.length), one])));
  // In lines of 76, as PostgreSQL writes it.
  return Buffer.concat([head, ...parts])
    .toString('base64')
    .replace(/.{76}/g, '$&\n');
}
const double = (value: number) => {
  const bytes = Buffer.alloc(8);
  bytes.writeDoubleBE(value);
  return bytes;
};

it('reads doubles as they are, row by row where there are two dimensions', () => {
  const values = [0.1, -1e-300, 2 ** 53 + 2, 4];
  expect([...readBinaryArray(sent(701, [2, 2], values.map(double)))]).toEqual(values);
  expect([...readBinaryArray(sent(701, [], []))]).toEqual([]);
});

it('reads what is null as no number', () => {
  expect([...readBinaryArray(sent(701, [3], [double(-2), null, double(7)]))]).toEqual([-2, Number.NaN, 7]);
});

it('reads moments before and after 2000 in ms since 1970', () => {
  const at = (text: string) => {
    const bytes = Buffer.alloc(8);
    bytes.writeBigInt64BE(BigInt(Date.parse(text) - Date.UTC(2000, 0, 1)) * 1000n);
    return bytes;
  };
  const texts = ['2026-03-01T12:34:56.789Z', '1999-12-31T23:59:59.999Z'];
  expect([...readBinaryArray(sent(1184, [2], texts.map(at)))]).toEqual(texts.map(Date.parse));
});

it('refuses what is neither double nor moment', () => {
  expect(() => readBinaryArray(sent(25, [1], [Buffer.from('a')]))).toThrow('type 25');
});
