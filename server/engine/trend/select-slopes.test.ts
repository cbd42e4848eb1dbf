import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { anySeries, inOrder, listEverySlope, wholeSeries } from '#tests/helpers/slope-series.ts';
import { selectSlopes } from './select-slopes.ts';

it('runs as its note says', () => {
  const points = { x: Float64Array.of(0, 1, 2), y: Float64Array.of(0, 1, 5) };
  expect(selectSlopes(points, [1])).toEqual([2.5]);
  expect(() => selectSlopes(points, [3])).toThrow('selectSlopes requires ranks within the pairs');
});

const share = fc.double({ min: 0, max: 1, noNaN: true });

it.each([
  ['random, rounded, tied, nearly vertical, monotone or constant', anySeries, 40],
  ['whole numbers, of which almost none may be held', wholeSeries, 1],
])('gives exactly what sorting the slopes of all pairs gives: %s', (_, series, most) => {
  fc.assert(
    fc.property(series, fc.array(share, { minLength: 1, maxLength: 4 }), (points, shares) => {
      const slopes = Float64Array.from(listEverySlope(points)).sort();
      const ranks = shares.map((one) => Math.round(one * (slopes.length - 1)));
      const found = selectSlopes(points, ranks, most);
      // On lines of decimals all slopes agree but for the last bits; more of them than may be held are rounded.
      const near = (rank: number) => slopes.filter((one) => isSame(one, slopes[rank] ?? 0)).length;
      for (const [i, rank] of ranks.entries()) {
        const wanted = slopes[rank] ?? Number.NaN;
        if (most > 1 && near(rank) > most) expect(isSame(found[i] ?? Number.NaN, wanted)).toBe(true);
        else expect((found[i] ?? Number.NaN) - wanted).toBe(0);
      }
    }),
    { seed: 16, numRuns: 400 },
  );
});

const isSame = (a: number, b: number) => Math.abs(a - b) <= 2 ** -40 * Math.abs(b);

describe('of 3,000 points, 4.5 million pairs', () => {
  const n = 3000;
  const random = seededRandom(8);
  const index = Array.from({ length: n }, (_, i) => i);
  const noise = index.map(() => random.normal());
  it.each<[string, number[], number[]]>([
    ['a noisy drift', index, noise.map((one, i) => 20 + i / 500 + one)],
    ['irregular x', index.map((i) => i + random.uniform()), noise],
    ['whole rpm at whole km', index.map((i) => 7 * i), noise.map((one) => Math.round(12 + 3 * one))],
    ['tenths', index.map((i) => i / 10), noise.map((one) => Math.round(30 * one) / 10)],
    ['milliseconds since 1970', index.map((i) => 1.7e12 + 6e4 * i), noise],
    ['many values at one x', index.map((i) => i % 50), noise],
    ['two x, nearly vertical', index.map((i) => (i % 2 === 0 ? 1 : 1 + 1e-12)), noise],
    ['glitches of 1e12 and 1e300', index, noise.map((one, i) => (i === 5 ? 1e12 : i === 99 ? 1e300 : one))],
    ['a step', index, index.map((i) => (i > 1700 ? 5 : 1))],
    ['stairs', index, index.map((i) => Math.floor(i / 10))],
    ['a line of thirds', index.map((i) => 3 * i), index],
    ['a falling line', index, index.map((i) => -4 * i)],
    ['one value', index, index.map(() => 7)],
  ])('they are exact too: %s', (_, x, y) => {
    const points = inOrder(x, y);
    const slopes = Float64Array.from(listEverySlope(points)).sort();
    const last = slopes.length - 1;
    const ranks = [0, 1, 0.02, 0.3, 0.5, 0.7, 0.98, 1].map((one) =>
      one === 1 ? last : Math.floor(one * last),
    );
    for (const most of [2 ** 10, 2 ** 21]) {
      const found = selectSlopes(points, ranks, most);
      for (const [i, rank] of ranks.entries()) expect((found[i] ?? Number.NaN) - (slopes[rank] ?? 0)).toBe(0);
    }
  });
});
