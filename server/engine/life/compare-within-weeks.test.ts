import { describe, expect, it } from 'vitest';
import { compareWithinWeeks } from './compare-within-weeks.ts';

type Row = readonly [subject: number, week: number, mean: number, weight: number];

const compare = (rows: readonly Row[], groups: readonly number[]) =>
  compareWithinWeeks(
    {
      subject: rows.map(([subject]) => subject),
      week: rows.map(([, week]) => week),
      mean: rows.map(([, , mean]) => mean),
      weight: rows.map(([, , , weight]) => weight),
    },
    groups,
  );

/** Each of so many a group of its own. */
const apart = (subjects: number) => Array.from({ length: subjects }, (_, i) => i);

// lm(mean ~ factor(life) + factor(week), weights = w) of R 4.2.2; effects of lives brought to weighted mean 0, and the
// weighted mean of everything added.
it('answers the effects of lives of a weighted two-way regression in R', () => {
  const rows: Row[] = [
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
    [4, 15, 50, 0],
  ];
  const found = compare(rows, apart(5));
  const byR = [88.2063318376, 84.389560436, 92.4579335532, 85.8426138623, 87.8426138623];
  for (const [i, value] of byR.entries()) expect(found[i]).toBeCloseTo(value, 4);
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
    const found = compare(
      fleet(() => 80),
      apart(20),
    ).map(Number);
    expect(Math.max(...found) - Math.min(...found)).toBeLessThan(1e-4);
  });

  it('differs by what use differs, whenever each was watched', () => {
    const use = (subject: number) => 80 + (subject % 3) * 4;
    const found = compare(fleet(use), apart(20)).map(Number);
    for (const [i, value] of found.entries()) expect(value - (found[0] ?? 0)).toBeCloseTo(use(i) - use(0), 4);
  });
});

describe('where weeks are not shared', () => {
  it('says nothing of one that was watched alone, or only beside others of its own vehicle', () => {
    const rows: Row[] = [
      [0, 1, 70, 2],
      [1, 1, 71, 2],
      [2, 5, 90, 2],
      [3, 5, 94, 2],
    ];
    expect(compare(rows, [7, 7, 8, 9, 10])).toEqual([null, null, 79.25, 83.25, null]);
  });

  it('compares each set within itself', () => {
    const sets: Row[] = [
      [0, 1, 60, 1],
      [1, 1, 64, 1],
      [2, 30, 80, 1],
      [3, 30, 84, 1],
    ];
    expect(compare(sets, apart(4))).toEqual([70, 74, 70, 74]);
  });

  it('has nothing to say of nothing', () => {
    expect(compare([], apart(2))).toEqual([null, null]);
  });
});
