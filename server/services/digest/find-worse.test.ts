import { describe, expect, it } from 'vitest';
import type { ComparedStanding } from '#db/queries/digest/compare-standings.ts';
import type { Grade } from '#server/contract/words.ts';
import { findWorse, MOST_WORSE } from './find-worse.ts';

const row = (
  key: number,
  [gradeBefore, chanceBefore]: [Grade, number],
  [grade, chance]: [Grade, number],
): ComparedStanding => ({
  key,
  unit: `V-${key}`,
  depot: null,
  before: { rank: 9, grade: gradeBefore, chance: chanceBefore, kmP50: null },
  after: { rank: key, grade, chance, kmP50: null },
});
const shown = (rows: ComparedStanding[], besides = new Set<number>()) =>
  findWorse(rows, besides).shown.map(({ key }) => key);

describe('what got worse', () => {
  it('is a worse grade, the gravest first, then a clearly higher chance in the same grade', () => {
    expect(
      shown([
        row(1, ['watch', 0.1], ['watch', 0.2]),
        row(2, ['steady', 0], ['watch', 0.1]),
        row(3, ['watch', 0.1], ['book', 0.3]),
        row(4, ['book', 0.3], ['book', 0.6]),
        row(5, ['steady', 0], ['book', 0.5]),
        row(6, ['book', 0.5], ['hold', 0.9]),
        row(7, ['unknown', 0], ['watch', 0.1]),
      ]),
    ).toEqual([6, 5, 3, 2, 7, 4, 1]);
  });

  it('is neither a better grade, nor a small rise, nor more of a hold, nor one told elsewhere', () => {
    expect(
      shown(
        [
          row(1, ['hold', 0.5], ['book', 0.9]),
          row(2, ['watch', 0.1], ['watch', 0.19]),
          row(3, ['hold', 0.5], ['hold', 1]),
          row(4, ['book', 0.5], ['hold', 0.9]),
        ],
        new Set([4]),
      ),
    ).toEqual([]);
  });

  it('is cut where nobody reads on, and says how many more there are', () => {
    const many = Array.from({ length: MOST_WORSE + 4 }, (_, i) => row(i, ['steady', 0], ['watch', 0.1]));
    const found = findWorse(many, new Set());
    expect([found.shown.length, found.more]).toEqual([MOST_WORSE, 4]);
    expect(found.shown[0]?.key).toBe(0);
  });
});
