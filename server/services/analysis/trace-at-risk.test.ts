import { describe, expect, it } from 'vitest';
import { markRunning, traceAtRisk } from './trace-at-risk.ts';

const life = (entry: number, exit: number, event = false, count = 1) => ({ entry, exit, event, count });

describe('the lives under watch', () => {
  it('grow where lives enter and shrink where they leave', () => {
    expect(traceAtRisk([life(0, 30), life(10, 20, true), life(10, 30, false, 5)])).toEqual([
      { x: 0, n: 1 },
      { x: 10, n: 7 },
      { x: 20, n: 6 },
      { x: 30, n: 0 },
    ]);
  });

  it('leave out where as many enter as leave, and keep a gap', () => {
    expect(traceAtRisk([life(0, 10), life(10, 20), life(25, 30)])).toEqual([
      { x: 0, n: 1 },
      { x: 20, n: 0 },
      { x: 25, n: 1 },
      { x: 30, n: 0 },
    ]);
  });

  it('are told at even steps where there are very many, each exact', () => {
    const lives = Array.from({ length: 5000 }, (_, i) => life(i % 7, 100 + Math.sqrt(i) * 3));
    const steps = traceAtRisk(lives);
    expect(steps.length).toBeLessThanOrEqual(400);
    expect(steps.at(-1)).toEqual({ x: Math.max(...lives.map(({ exit }) => exit)), n: 0 });
    for (const { x, n } of steps)
      expect(n).toBe(lives.filter(({ entry, exit }) => entry <= x && exit > x).length);
  });

  it('are none without lives', () => {
    expect(traceAtRisk([])).toEqual([]);
  });
});

describe('the marks of lives that ran on', () => {
  it('stand where they were last seen, one a place, not where others failed', () => {
    expect(markRunning([life(0, 30), life(0, 30), life(0, 20, true), life(0, 10)])).toEqual([10, 30]);
  });

  it('are thinned where there are very many', () => {
    const marks = markRunning(Array.from({ length: 5000 }, (_, i) => life(0, i + 1)));
    expect(marks.length).toBeLessThanOrEqual(400);
    expect(marks[0]).toBe(1);
  });
});
