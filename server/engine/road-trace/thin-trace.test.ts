import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { thinTrace } from './thin-trace.ts';

const even = (n: number, value: number) => new Float64Array(n).fill(value);

it('runs as its note says', () => {
  expect(thinTrace([1, 2, 3], [80, 80, 80], 10)).toEqual([0, 1, 2]);
});

it('leaves no more rows than asked, rising, with first and last', () => {
  const { normal } = seededRandom(3);
  const slip = Float64Array.from({ length: 100_000 }, () => normal());
  const rows = thinTrace(
    slip,
    slip.map((value) => 80 + value),
    1200,
  );
  expect(rows.length).toBeLessThanOrEqual(1200);
  expect(rows.length).toBeGreaterThan(700);
  expect(rows[0]).toBe(0);
  expect(rows.at(-1)).toBe(99_999);
  expect(rows).toEqual([...new Set(rows)].sort((a, b) => a - b));
});

it('keeps a spike of one row, up or down, of slip and of the command', () => {
  const slip = even(50_000, 12).with(31_234, 600).with(41_000, -300);
  const duty = even(50_000, 80).with(7_777, 0);
  const rows = new Set(thinTrace(slip, duty, 1200));
  for (const spike of [31_234, 41_000, 7_777]) expect(rows.has(spike)).toBe(true);
});

it('keeps the rows that it is told to', () => {
  expect(thinTrace(even(5_000, 12), even(5_000, 80), 100, [1234, 1235])).toEqual(
    expect.arrayContaining([1234, 1235]),
  );
});

it('refuses what cannot be met', () => {
  expect(() => thinTrace([1], [1], 7)).toThrow('thinTrace requires');
  expect(() => thinTrace([1], [1], 8, [1, 2, 3, 4, 5])).toThrow('thinTrace requires');
});
