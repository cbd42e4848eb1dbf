import { expect, it } from 'vitest';
import { makeTraceWindows } from '#tests/helpers/make-trace-window.ts';
import { measureSteady } from './measure-steady.ts';

const eightSeconds = makeTraceWindows(8, (second) => ({ slipRpm: 100 - 2 * second, dutyPct: 76 + second }));

it('runs as its note says', () => {
  expect(measureSteady(eightSeconds).slope.estimate).toBe(-2);
});

it('tells command, level, slope and fluid of the stretch', () => {
  expect(measureSteady(eightSeconds)).toEqual({
    fromMs: 0,
    toMs: 8000,
    dutyPct: 79.5,
    slipRpm: 93,
    slope: { estimate: -2, low: -2, high: -2 },
    fluidC: 85,
  });
});

it('is not led astray by one wild second', () => {
  const wild = eightSeconds.map((one, second) => (second === 5 ? { ...one, slipRpm: 4000 } : one));
  expect(measureSteady(wild).slipRpm).toBeLessThan(100);
  expect(measureSteady(wild).slope.estimate).toBeCloseTo(-2, 1);
});

it('knows no fluid temperature where no window has one', () => {
  expect(measureSteady(makeTraceWindows(6, () => ({ fluidC: null }))).fluidC).toBeNull();
});

it('takes the slope of an hour from some seconds of it', () => {
  const hour = makeTraceWindows(3600, (second) => ({ slipRpm: 540 - 0.01 * second }));
  expect(measureSteady(hour).slope.estimate).toBeCloseTo(-0.01, 6);
});

it('gives no slope of two windows, and refuses none', () => {
  expect(measureSteady(makeTraceWindows(2)).slope).toEqual({ estimate: 0, low: 0, high: 0 });
  expect(() => measureSteady([])).toThrow('measureSteady requires');
});
