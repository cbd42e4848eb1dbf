import { describe, expect, it } from 'vitest';
import { judgeSolenoidCurrent } from './judge-solenoid-current.ts';

// 12 V / (11.5 + 0.5) ohm = 1 A, 0.75 to 1.25 A with 25 %.
const solenoid = { ohm: 11.5, supplyV: 12, wiringOhm: 0.5, tolerancePct: 25 };
const judge = (offA: number, onA: number, figures: typeof solenoid | null = solenoid, asMeasured = false) => {
  const judged = judgeSolenoidCurrent({ offA, onA, click: 'not_listened', asMeasured }, figures);
  if ('asks' in judged) throw new Error(`asked about ${judged.asks[0]?.kind}`);
  return judged;
};

it('runs as its note says', () => {
  expect(judge(0, 1, null).result).toBe('current_right');
});

describe('with the figures of the platform', () => {
  it.each([
    ['the expected', 0, 1, 'current_right'],
    ['the expected beside other consumers', 2, 3, 'current_right'],
    ['exactly the lowest', 0.6, 1.35, 'current_right'],
    ['exactly the highest', 0.1, 1.35, 'current_right'],
    ['just under the lowest', 0, 0.74, 'current_low'],
    ['just over the highest', 0, 1.26, 'current_high'],
    ['none', 0, 0, 'no_current'],
    ['none, with others on the fuse', 0.3, 0.3, 'no_current'],
    ['none, with a current that could be the solenoid', 1, 1.02, 'current_stays'],
    ['none, with half of it', 0.5, 0.5, 'current_stays'],
  ])('a change that is %s is judged', (_, offA, onA, result) => {
    const judged = judge(offA, onA);
    expect(judged.result).toBe(result);
    expect(judged.verdict).toBe(result === 'current_right' ? 'passed' : 'failed');
  });

  it('says what to look at, the heat of the coil first where it would explain the current', () => {
    expect(judge(0, 0).lookNext).toEqual(['command', 'fuse', 'driver', 'open_wire', 'open_coil']);
    // A coil at 100 degC draws 12 / (11.5 * 1.3144 + 0.5) = 0.77 A, with tolerance 0.58 A and more.
    expect(judge(0, 0.6).lookNext[0]).toBe('coil_heat');
    expect(judge(0, 0.5).lookNext[0]).toBe('connectors');
    expect(judge(0, 2).lookNext).toEqual(['shorted_coil', 'shorted_wiring']);
    expect(judge(1, 1).lookNext).toEqual(['shorted_driver', 'foreign_feed', 'other_consumers']);
  });

  it('makes a click count beside the current, not against it', () => {
    const input = { offA: 0, onA: 1, asMeasured: false };
    expect(judgeSolenoidCurrent({ ...input, click: 'not_heard' }, solenoid)).toMatchObject({
      result: 'current_right',
      verdict: 'passed',
      lookNext: ['no_click'],
    });
    const none = judgeSolenoidCurrent({ ...input, onA: 0, click: 'heard' }, solenoid);
    expect('asks' in none ? [] : none.lookNext[0]).toBe('right_fuse');
  });
});

describe('without them', () => {
  it.each([
    [0.49, 'current_low', 'unclear'],
    [0.5, 'current_right', 'passed'],
    [3, 'current_right', 'passed'],
    [3.2, 'current_high', 'unclear'],
    [0, 'no_current', 'failed'],
  ])('a change of %d A is %s: %s', (onA, result, verdict) => {
    expect(judge(0, onA, null)).toMatchObject({ result, verdict, figures: { expected: null } });
  });

  it('says first that the figures are missing', () => {
    expect(judge(0, 4, null).lookNext[0]).toBe('platform_figures');
  });
});

describe('figures that may be slips of the pen', () => {
  it.each([
    [1, 0, 'swapped'],
    [-0.5, 1, 'negative_current'],
    [0, 1000, 'milliamps'],
    [0, 90, 'clamp_range'],
  ])('asks about %d A off and %d A on, and judges nothing', (offA, onA, kind) => {
    const asked = judgeSolenoidCurrent({ offA, onA, click: 'not_listened', asMeasured: false }, solenoid);
    expect(asked).toEqual({ asks: [expect.objectContaining({ kind })] });
  });

  it.each([
    [1, 0, 'current_stays'],
    [0, -1, 'no_current'],
    [0, 1000, 'current_high'],
  ])('judges %d A off and %d A on as they are once they were measured so', (offA, onA, result) => {
    expect(judge(offA, onA, solenoid, true)).toMatchObject({ result, verdict: 'failed' });
  });
});
