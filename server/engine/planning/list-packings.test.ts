import { describe, expect, it } from 'vitest';
import { listPackings } from './list-packings.ts';

it('runs as its note says', () => {
  expect(listPackings(9, [6, 4, 3], [1, 2, 3])).toEqual({
    packings: [
      [1, 0, 1],
      [0, 2, 0],
      [0, 1, 1],
      [0, 0, 3],
    ],
    complete: true,
  });
});

it('has one empty packing where nothing fits', () => {
  expect(listPackings(2, [6, 4], [1, 1]).packings).toEqual([[0, 0]]);
});

describe.each([
  [36, [24, 16, 12, 8], [9, 9, 9, 9]],
  [36, [13, 11, 7, 5], [1, 2, 3, 2]],
  [20, [4], [3]],
])('of %i quarters by %j', (room, lengths, most) => {
  const length = (packing: readonly number[]) =>
    packing.reduce((sum, n, i) => sum + n * (lengths[i] ?? 0), 0);
  const { packings } = listPackings(room, lengths, most);

  it('lists none twice, none too long, and none into which more fits', () => {
    expect(new Set(packings.map(String)).size).toBe(packings.length);
    for (const packing of packings) {
      expect(length(packing)).toBeLessThanOrEqual(room);
      for (const [i, one] of lengths.entries())
        expect((packing[i] ?? 0) >= (most[i] ?? 0) || length(packing) + one > room).toBe(true);
    }
  });

  it('lists one that holds every other that fits', () => {
    const all = lengths.reduce<number[][]>(
      (some, _, i) =>
        some.flatMap((one) => Array.from({ length: (most[i] ?? 0) + 1 }, (_n, n) => [...one, n])),
      [[]],
    );
    for (const one of all.filter((packing) => length(packing) <= room))
      expect(
        packings.some((packing) => packing.every((n, i) => n >= (one[i] ?? 0))),
        String(one),
      ).toBe(true);
  });
});

it('says where there are more than it lists', () => {
  const lengths = Array.from({ length: 16 }, (_, i) => 20 - i);
  const { packings, complete } = listPackings(
    96,
    lengths,
    lengths.map(() => 9),
  );
  expect([packings.length, complete]).toEqual([4_000, false]);
});
