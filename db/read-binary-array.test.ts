import { expect, it } from 'vitest';
import { readBinaryArray, readBinaryNumbers } from './read-binary-array.ts';

/** As PostgreSQL's `array_send` writes it: int4 dimensions, flags, type, then length and lower bound of each. */
function sent(type: number, dimensions: number[], elements: (Buffer | null)[]): Buffer {
  const ints = (...values: number[]) => {
    const bytes = Buffer.alloc(4 * values.length);
    for (const [i, value] of values.entries()) bytes.writeInt32BE(value, 4 * i);
    return bytes;
  };
  const head = ints(dimensions.length, 0, type, ...dimensions.flatMap((length) => [length, 1]));
  const parts = elements.map((one) => (one === null ? ints(-1) : Buffer.concat([ints(one.length), one])));
  return Buffer.concat([head, ...parts]);
}
const double = (value: number) => {
  const bytes = Buffer.alloc(8);
  bytes.writeDoubleBE(value);
  return bytes;
};

it('reads doubles as they are, row by row where there are two dimensions', () => {
  const values = [0.1, -1e-300, 2 ** 53 + 2, 4];
  expect(readBinaryNumbers(sent(701, [2, 2], values.map(double)))).toEqual(values);
});

it('reads small numbers, and what is null where that is allowed', () => {
  expect(readBinaryArray(sent(21, [2], [Buffer.from([255, 254]), null]))).toEqual([-2, null]);
  expect(readBinaryNumbers(sent(23, [1], [Buffer.from([0, 1, 0, 0])]))).toEqual([65_536]);
  expect(() => readBinaryNumbers(sent(701, [1], [null]))).toThrow('requires an array without null');
});

it('reads moments before and after 2000 in ms since 1970', () => {
  const at = (text: string) => {
    const bytes = Buffer.alloc(8);
    bytes.writeBigInt64BE(BigInt(Date.parse(text) - Date.UTC(2000, 0, 1)) * 1000n);
    return bytes;
  };
  const texts = ['2026-03-01T12:34:56.789Z', '1999-12-31T23:59:59.999Z'];
  expect(readBinaryNumbers(sent(1184, [2], texts.map(at)))).toEqual(texts.map(Date.parse));
});

it('refuses what is neither number nor moment', () => {
  expect(() => readBinaryArray(sent(25, [1], [Buffer.from('a')]))).toThrow('type 25');
});
