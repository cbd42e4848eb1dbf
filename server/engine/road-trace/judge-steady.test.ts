import { describe, expect, it } from 'vitest';
import { judgeSteady } from './judge-steady.ts';
import type { SteadyStretch } from './trace-model.ts';

const stretch = (seconds: number, dutyPct: number, slipRpm: number, slope = 0): SteadyStretch => ({
  fromMs: 0,
  toMs: seconds * 1000,
  dutyPct,
  slipRpm,
  slope: { estimate: slope, low: slope - 0.1, high: slope + 0.1 },
  fluidC: 85,
});
const healthy = [
  { dutyPct: 50, lowRpm: 20, usualRpm: 40, highRpm: 60 },
  { dutyPct: 80, lowRpm: 5, usualRpm: 15, highRpm: 25 },
];
const result = (...stretches: SteadyStretch[]) => judgeSteady(stretches, 150, healthy).result;

it('runs as its note says', () => {
  expect(judgeSteady([], 150, []).result).toBe('too_little_steady');
});

describe('slips', () => {
  it('by 540 rpm at 78 % command that do not fall', () => {
    const judged = judgeSteady([stretch(8, 78, 540), stretch(60, 80, 12)], 150, healthy);
    expect(judged).toMatchObject({ result: 'slips', stretch: { slipRpm: 540 }, withinS: 60 });
  });
  it('not by slip that falls away as the clutch takes hold', () => {
    expect(result(stretch(8, 78, 540, -60))).toBe('slip_raised');
  });
  it('not by slip below 70 % command, where a clutch may be meant to slip', () => {
    expect(result(stretch(8, 69.9, 540))).not.toBe('slips');
    expect(result(stretch(8, 70, 540))).toBe('slips');
  });
  it('not at the limit itself', () => {
    expect(result(stretch(8, 78, 150))).not.toBe('slips');
  });
});

describe('slip_raised', () => {
  it('above the healthy range and under the limit, by the stretch with the most slip', () => {
    const judged = judgeSteady([stretch(30, 80, 12), stretch(6, 80, 60), stretch(9, 80, 40)], 150, healthy);
    expect(judged).toMatchObject({
      result: 'slip_raised',
      stretch: { slipRpm: 60 },
      healthy: { highRpm: 25 },
    });
  });
  it('by the range at the command of the stretch', () => {
    expect(result(stretch(30, 50, 55))).toBe('too_little_steady');
    expect(result(stretch(30, 80, 55))).toBe('slip_raised');
  });
});

describe('holds', () => {
  it('by 20 s within the healthy range at 70 % command or more, in several stretches too', () => {
    expect(result(stretch(12, 80, 12), stretch(8, 90, 25))).toBe('holds');
    expect(result(stretch(12, 80, 12), stretch(7.9, 80, 12))).toBe('too_little_steady');
  });
  it('not by seconds at less command', () => {
    expect(result(stretch(60, 60, 30))).toBe('too_little_steady');
  });
  it('by slip below what is usual', () => {
    expect(result(stretch(30, 80, 0))).toBe('holds');
  });
});

it('goes by the limit alone where no healthy range is known', () => {
  expect(judgeSteady([stretch(30, 80, 140)], 150, [])).toMatchObject({ result: 'holds', healthy: null });
  expect(judgeSteady([stretch(30, 80, 160)], 150, []).result).toBe('slips');
});
