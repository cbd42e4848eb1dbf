import { expect, it } from 'vitest';
import { runCusum } from './run-cusum.ts';

it('runs as its note says', () => {
  const chart = runCusum({ values: [0, 1, 3], target: 0, k: 0.5, h: 2 });
  expect(chart).toEqual({ high: [0, 0.5, 3], low: [0, 0, 0], firstHigh: 2, firstLow: null, firstAlarm: 2 });
});

it('sees a fall by the lower sum', () => {
  expect(runCusum({ values: [-2, -2, 9], target: 0, k: 0.5, h: 2 })).toMatchObject({
    firstLow: 1,
    firstHigh: 2,
    firstAlarm: 1,
  });
});

it('gives no alarm without values, and refuses broken ones', () => {
  expect(runCusum({ values: [], target: 0, k: 0, h: 1 })).toMatchObject({ high: [], firstAlarm: null });
  expect(() => runCusum({ values: [Number.NaN], target: 0, k: 0, h: 1 })).toThrow('runCusum requires finite');
  expect(() => runCusum({ values: [], target: 0, k: -1, h: 1 })).toThrow('runCusum requires k and h');
});
