import { expect, it } from 'vitest';
import { maySit } from './may-sit.ts';

const days = [{ gaps: [{ bay: 1, fromQuarter: 0, toQuarter: 8 }], extra: { fromQuarter: 0, toQuarter: 36 } }];

it('runs as its note says', () => {
  expect(maySit({ hold: false, quarters: 8, values: [null] }, [], 0, false)).toBe(false);
});

it('asks for worth or a hold, for a day that is not away, and for a gap that is long enough', () => {
  const may = (hold: boolean, quarters: number, value: number | null, extra = false) =>
    maySit({ hold, quarters, values: [value] }, days, 0, extra);
  expect([may(false, 8, 1), may(false, 8, 0), may(true, 8, -200), may(true, 8, null)]).toEqual([
    true,
    false,
    true,
    false,
  ]);
  expect([may(false, 9, 1), may(false, 9, 1, true)]).toEqual([false, true]);
});
