import { expect, it } from 'vitest';
import { groupGaps } from './group-gaps.ts';

const gap = (quarters: number) => ({ bay: 1, fromQuarter: 100, toQuarter: 100 + quarters });

it('runs as its note says', () => {
  expect(groupGaps([{ bay: 1, fromQuarter: 0, toQuarter: 21 }], [8, 12])).toEqual([{ room: 20, gaps: [0] }]);
});

it('joins gaps that hold the same, longest first, and leaves out those that hold nothing', () => {
  expect(groupGaps([gap(36), gap(7), gap(21), gap(37), gap(20), gap(0)], [12, 8])).toEqual([
    { room: 36, gaps: [0, 3] },
    { room: 20, gaps: [2, 4] },
  ]);
});

it('knows no group without inspections', () => {
  expect(groupGaps([gap(36)], [])).toEqual([]);
});
