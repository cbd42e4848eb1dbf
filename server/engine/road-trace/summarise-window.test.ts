import { describe, expect, it } from 'vitest';
import { summariseWindow } from './summarise-window.ts';
import type { TraceSamples } from './trace-model.ts';

const threeRows: TraceSamples = {
  tMs: [0, 300, 600],
  slipRpm: [11, 400, 12],
  dutyPct: [80, 81, 30],
  throttlePct: [20, Number.NaN, 24],
  speedKmh: [Number.NaN, Number.NaN, Number.NaN],
  loadPct: null,
  fluidC: [85, 86, 87],
  gear: null,
  shifting: null,
};
const rows = { from: 0, to: 3, fromMs: 0, toMs: 1000, begins: true };

it('runs as its note says', () => {
  expect(summariseWindow(threeRows, { from: 0, to: 3, fromMs: 0, toMs: 1000, begins: true }).slipRpm).toBe(
    12,
  );
});

it('takes the median of each signal, of the rows that have it', () => {
  expect(summariseWindow(threeRows, rows)).toEqual({
    fromMs: 0,
    toMs: 1000,
    begins: true,
    slipRpm: 12,
    dutyPct: 80,
    throttlePct: 22,
    speedKmh: null,
    loadPct: null,
    fluidC: 86,
    shifting: null,
  });
});

describe('shifting', () => {
  const of = (change: Partial<TraceSamples>, begins = false) =>
    summariseWindow({ ...threeRows, ...change }, { ...rows, from: 1, begins }).shifting;
  it('is told by one row that says so', () => {
    expect(of({ shifting: [0, 0, 1] })).toBe(true);
    expect(of({ shifting: [1, 0, 0] })).toBe(false);
  });
  it('is told by a change of gear within the window or at its start', () => {
    expect(of({ gear: [4, 4, 5] })).toBe(true);
    expect(of({ gear: [4, 5, 5] })).toBe(true);
    expect(of({ gear: [5, 5, 5] })).toBe(false);
  });
  it('is not told by another gear on the far side of a gap', () => {
    expect(of({ gear: [4, 5, 5] }, true)).toBe(false);
  });
});
