import { describe, expect, it } from 'vitest';
import { judgePressure, type PressureInput } from './judge-pressure.ts';

const input: PressureInput = {
  place: 'clutch_port',
  unit: 'bar',
  off: 1,
  on: 6,
  smallestStep: 0.2,
  asMeasured: false,
};
const judge = (some: Partial<PressureInput>) => {
  const judged = judgePressure({ ...input, ...some });
  if ('asks' in judged) throw new Error(`asked about ${judged.asks[0]?.kind}`);
  return judged;
};

it('runs as its note says', () => {
  expect(judge({}).result).toBe('pressure_changes');
});

describe('a change of pressure', () => {
  it.each([
    ['two steps', { off: 1, on: 1.4 }, 'pressure_changes', 'passed'],
    ['two steps down', { off: 1.4, on: 1 }, 'pressure_changes', 'passed'],
    ['one step', { off: 1, on: 1.2 }, 'pressure_unclear', 'unclear'],
    ['between one and two steps', { off: 1, on: 1.3 }, 'pressure_unclear', 'unclear'],
    ['less than a step', { off: 1, on: 1.1 }, 'pressure_stays', 'failed'],
    ['nothing', { off: 6, on: 6 }, 'pressure_stays', 'failed'],
    ['5 % seen on a fine gauge', { off: 9.5, on: 10, smallestStep: 0.01 }, 'pressure_changes', 'passed'],
    ['4 % seen on a fine gauge', { off: 9.6, on: 10, smallestStep: 0.01 }, 'pressure_unclear', 'unclear'],
    ['2 % seen on a fine gauge', { off: 9.8, on: 10, smallestStep: 0.01 }, 'pressure_stays', 'failed'],
  ] as const)('of %s is judged by steps and share', (_, some, result, verdict) => {
    expect(judge(some)).toMatchObject({ result, verdict });
  });

  it('is judged alike in another unit', () => {
    expect(judge({ unit: 'psi', off: 15, on: 17.9, smallestStep: 3 }).result).toBe('pressure_stays');
    expect(judge({ unit: 'psi', off: 15, on: 21, smallestStep: 3 }).result).toBe('pressure_changes');
  });

  it('is better looked for elsewhere where the main line shows none', () => {
    expect(judge({ place: 'line', on: 1 }).lookNext).toEqual(['better_place', 'valve']);
    expect(judge({ on: 1 }).lookNext).toEqual(['valve']);
  });
});

describe('pressures that may be slips of the pen', () => {
  it.each([
    [{ off: 0, on: 0 }, 'both_zero', null],
    [{ on: -6 }, 'negative_pressure', { off: 1, on: 6 }],
    [{ on: 90 }, 'pressure_unit', { unit: 'psi' }],
    [{ off: 200, on: 700 }, 'pressure_unit', { unit: 'kpa' }],
    [{ smallestStep: 7 }, 'step_over_reading', null],
  ] as const)('asks about %o', (some, kind, suggestion) => {
    expect(judgePressure({ ...input, ...some })).toEqual({
      asks: [expect.objectContaining({ kind, suggestion })],
    });
  });

  it('judges them as they are once they were measured so', () => {
    expect(judge({ off: 0, on: 0, asMeasured: true }).result).toBe('pressure_stays');
    expect(judge({ on: 90, asMeasured: true }).result).toBe('pressure_changes');
  });
});
