import { describe, expect, it } from 'vitest';
import { compareWithinWeeks, type WeekMean } from './compare-within-weeks.ts';

const cellsOf = (rows: readonly (readonly [number, number, number, number])[]): WeekMean[] =>
  rows.map(([subject, week, mean, weight]) => ({ subject, group: subject, week, mean, weight }));

// lm(mean ~ factor(life) + factor(week), weights = w) of R 4.2.2; effects of lives brought to weighted mean 0, and the
// weighted mean of everything added.
it('answers the effects of lives of a weighted two-way regression in R', () => {
  const cells = cellsOf([
    [0, 10, 80, 40],
    [0, 11, 83.5, 25],
    [0, 12, 91, 60],
    [1, 10, 76, 35],
    [1, 11, 80.5, 12],
    [2, 12, 95, 50],
    [2, 13, 99, 44],
    [3, 13, 92, 30],
    [3, 14, 88, 20],
    [3, 10, 78.5, 8],
    [4, 14, 90, 16],
  ]);
  const found = compareWithinWeeks(cells, 5);
  const byR = [88.2063318376, 84.389560436, 92.4579335532, 85.8426138623, 87.8426138623];
  for (const [i, value] of byR.entries()) expect(found[i]).toBeCloseTo(value, 6);
});

/** Warm in the middle of the year: 20 degC between the coldest and the warmest week. */
const seasonOf = (week: number) => -10 * Math.cos((2 * Math.PI * week) / 52);

describe('a fleet over a year', () => {
  const watched = (subject: number) => Array.from({ length: 12 }, (_, k) => (subject * 5 + k) % 52);
  const fleet = (useOf: (subject: number) => number) =>
    Array.from({ length: 20 }, (_, subject) =>
      watched(subject).map(
        (week) => [subject, week, useOf(subject) + seasonOf(week), 3 + (week % 4)] as const,
      ),
    ).flat();

  it('is alike in use where the season alone differs', () => {
    const found = compareWithinWeeks(cellsOf(fleet(() => 80)), 20).map(Number);
    expect(Math.max(...found) - Math.min(...found)).toBeLessThan(1e-4);
  });

  it('differs by what use differs, whenever each was watched', () => {
    const use = (subject: number) => 80 + (subject % 3) * 4;
    const found = compareWithinWeeks(cellsOf(fleet(use)), 20).map(Number);
    for (const [i, value] of found.entries()) expect(value - (found[0] ?? 0)).toBeCloseTo(use(i) - use(0), 4);
  });
});

describe('where weeks are not shared', () => {
  it('says nothing of one that was watched alone, or only beside others of its own vehicle', () => {
    const alone = [
      { subject: 0, group: 7, week: 1, mean: 70, weight: 2 },
      { subject: 1, group: 7, week: 1, mean: 71, weight: 2 },
      { subject: 2, group: 8, week: 5, mean: 90, weight: 2 },
      { subject: 3, group: 9, week: 5, mean: 94, weight: 2 },
    ];
    expect(compareWithinWeeks(alone, 5)).toEqual([null, null, 79.25, 83.25, null]);
  });

  it('compares each set within itself', () => {
    const sets = cellsOf([
      [0, 1, 60, 1],
      [1, 1, 64, 1],
      [2, 30, 80, 1],
      [3, 30, 84, 1],
    ]);
    expect(compareWithinWeeks(sets, 4)).toEqual([70, 74, 70, 74]);
  });

  it('has nothing to say of nothing', () => {
    expect(compareWithinWeeks([], 2)).toEqual([null, null]);
  });
});
