import { describe, expect, it } from 'vitest';
import { splitWindows } from './split-windows.ts';

const every = (stepMs: number, count: number, fromMs = 0) =>
  Array.from({ length: count }, (_, i) => fromMs + i * stepMs);

it('runs as its note says', () => {
  expect(splitWindows([0, 500, 1000]).windows.length).toBe(2);
});

it('takes the rows of each second together', () => {
  const { stepMs, windows, gaps } = splitWindows(every(10, 250));
  expect(stepMs).toBe(10);
  expect(gaps).toEqual([]);
  expect(windows).toEqual([
    { from: 0, to: 100, fromMs: 0, toMs: 1000, begins: true },
    { from: 100, to: 200, fromMs: 1000, toMs: 2000, begins: false },
    { from: 200, to: 250, fromMs: 2000, toMs: 2500, begins: false },
  ]);
});

it('takes each row by itself where rows are further apart than a second', () => {
  const { windows } = splitWindows(every(10_000, 3));
  expect(windows.map(({ from, to, fromMs, toMs }) => [from, to, fromMs, toMs])).toEqual([
    [0, 1, 0, 10_000],
    [1, 2, 10_000, 20_000],
    [2, 3, 20_000, 30_000],
  ]);
});

describe('a jump in time', () => {
  it('of more than 3 s is a gap, after which windows begin anew', () => {
    const { windows, gaps } = splitWindows([...every(100, 20), ...every(100, 10, 5_250)]);
    expect(gaps).toEqual([{ fromMs: 1_900, toMs: 5_250 }]);
    expect(windows.map(({ fromMs, toMs, begins }) => [fromMs, toMs, begins])).toEqual([
      [0, 1_000, true],
      [1_000, 2_000, false],
      [5_250, 6_250, true],
    ]);
  });

  it('of 3 s is none; a second without rows makes no window', () => {
    const { windows, gaps } = splitWindows([...every(100, 10), ...every(100, 10, 3_900)]);
    expect(gaps).toEqual([]);
    expect(windows.map(({ fromMs }) => fromMs)).toEqual([0, 3_000, 4_000]);
  });

  it('is measured in steps where rows are far apart', () => {
    expect(splitWindows([...every(2_000, 10), 27_900]).gaps).toEqual([]);
    expect(splitWindows([...every(2_000, 10), 28_100]).gaps).toEqual([{ fromMs: 18_000, toMs: 28_100 }]);
  });
});

it('makes one window without length of one row, and none of none', () => {
  expect(splitWindows([5]).windows).toEqual([{ from: 0, to: 1, fromMs: 5, toMs: 5, begins: true }]);
  expect(splitWindows([])).toEqual({ stepMs: 0, windows: [], gaps: [] });
});

it('puts every row into exactly one window', () => {
  const tMs = every(37, 5_000).map((ms, i) => ms + (i % 7) * 3 + (i > 2_000 ? 9_000 : 0));
  const { windows } = splitWindows(tMs);
  expect(windows[0]?.from).toBe(0);
  expect(windows.at(-1)?.to).toBe(tMs.length);
  windows.slice(1).forEach((window, i) => {
    expect(window.from).toBe(windows[i]?.to);
  });
});
