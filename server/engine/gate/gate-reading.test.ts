import { describe, expect, it } from 'vitest';
import { gateRules } from '#tests/helpers/engine-settings.ts';
import { type GatedReading, type GateReason, gateReading } from './gate-reading.ts';

const warmCruise: GatedReading = {
  atMs: 1_000_000,
  slipRpm: 20,
  dutyPct: 85,
  fluidC: 90,
  loadPct: 45,
  speedKmh: 80,
  shifting: false,
};

it('runs as its note says', () => {
  expect(gateReading(warmCruise, null, gateRules)).toBeNull();
});

const limits: [GateReason, Partial<GatedReading>, Partial<GatedReading>][] = [
  ['not_commanded', { dutyPct: 39.9 }, { dutyPct: 40 }],
  ['overrun', { slipRpm: -15.1 }, { slipRpm: -15 }],
  ['low_load', { loadPct: 14.9 }, { loadPct: 15 }],
  ['low_speed', { speedKmh: 29.9 }, { speedKmh: 30 }],
  ['cold', { fluidC: 54.9 }, { fluidC: 55 }],
  ['hot', { fluidC: 125.1 }, { fluidC: 125 }],
];

describe.each(limits)('%s', (reason, beyond, at) => {
  it('sets aside what lies beyond the limit', () => {
    expect(gateReading({ ...warmCruise, ...beyond }, null, gateRules)).toBe(reason);
  });
  it('lets the limit itself pass', () => {
    expect(gateReading({ ...warmCruise, ...at }, null, gateRules)).toBeNull();
  });
});

it('sets aside a reading taken while shifting', () => {
  expect(gateReading({ ...warmCruise, shifting: true }, null, gateRules)).toBe('shifting');
});

it('sets nothing aside for a signal that the feed does not carry', () => {
  const bare = { ...warmCruise, fluidC: null, loadPct: null, speedKmh: null, shifting: null };
  expect(gateReading(bare, null, gateRules)).toBeNull();
});

describe('duty against the reading before', () => {
  const gateAfter = (seconds: number, dutyPct: number) =>
    gateReading(warmCruise, { atMs: warmCruise.atMs - seconds * 1_000, dutyPct }, gateRules);

  it('sets aside a duty that moved, up or down, within 30 s', () => {
    expect(gateAfter(10, 79.9)).toBe('duty_moving');
    expect(gateAfter(29.9, 90.1)).toBe('duty_moving');
  });
  it('lets a move of 5 points pass', () => {
    expect(gateAfter(10, 80)).toBeNull();
    expect(gateAfter(10, 90)).toBeNull();
  });
  it('asks nothing of a reading 30 s old or older', () => {
    expect(gateAfter(30, 0)).toBeNull();
  });
});

it('names the first rule that fails', () => {
  const cold = { ...warmCruise, fluidC: 20, speedKmh: 10, dutyPct: 10 };
  expect(gateReading(cold, null, gateRules)).toBe('not_commanded');
  expect(gateReading({ ...cold, dutyPct: 85 }, null, gateRules)).toBe('low_speed');
});
