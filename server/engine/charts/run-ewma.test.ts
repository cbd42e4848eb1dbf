import { expect, it } from 'vitest';
import { runEwma } from './run-ewma.ts';

it('runs as its note says', () => {
  const chart = runEwma({ values: [2, 4], target: 0, sigma: 1, lambda: 0.5 });
  expect(chart.z).toEqual([1, 2.5]);
  // By hand: 3 sqrt(1/3 * 3/4) = 1.5 at the first value, 3 sqrt(1/3 * 15/16) = 1.677 at the second.
  expect(chart.upper).toEqual([expect.closeTo(1.5, 12), expect.closeTo(1.6770509831, 9)]);
  expect(chart).toMatchObject({ alarms: [1], alarmsInTheLongRun: [1], firstAlarm: 1 });
});

it('is a plain chart of single values with lambda 1', () => {
  const chart = runEwma({ values: [1, -4, 2], target: 0, sigma: 1, lambda: 1 });
  expect(chart).toMatchObject({ z: [1, -4, 2], lowerInTheLongRun: -3, alarms: [1] });
});

it('gives no alarm without values, and refuses broken ones', () => {
  expect(runEwma({ values: [], target: 0, sigma: 1, lambda: 0.3 }).firstAlarm).toBeNull();
  expect(() => runEwma({ values: [], target: 0, sigma: 1, lambda: 0 })).toThrow('runEwma requires lambda');
  expect(() => runEwma({ values: [], target: 0, sigma: -1, lambda: 1 })).toThrow('runEwma requires sigma');
  expect(() => runEwma({ values: [Number.NaN], target: 0, sigma: 1, lambda: 1 })).toThrow('requires finite');
});
