import { describe, expect, it } from 'vitest';
import type { LifeFitRow } from '#db/queries/list-life-fits.ts';
import { sayLifeFit, toLifeFit } from './say-life-fit.ts';

const row: LifeFitRow = {
  platform: 'bus',
  fittedAt: new Date('2026-11-03T04:00:00Z'),
  basis: 'own',
  lives: 70,
  failures: 14,
  fleetFailures: 20,
  shape: 2,
  scaleKm: 300_000,
  varLogScale: 0.01,
  varLogShape: 0.02,
  covLogs: 0.005,
};

describe('what a life rests on, in words', () => {
  it.each([
    [row, 'fitted from 14 failures of its own on 3 Nov 2026'],
    [
      { ...row, basis: 'shared_shape' as const, failures: 1 },
      "fitted from 1 failure of its own and the shape of the fleet's 20 on 3 Nov 2026",
    ],
    [
      { ...row, basis: 'fleet' as const, failures: 0 },
      'borrowed from 20 failures elsewhere in the fleet on 3 Nov 2026',
    ],
    [
      { ...row, basis: 'expected' as const, fleetFailures: 0 },
      'as expected in the settings: the fleet has no failure on record, a fit needs 3',
    ],
    [null, 'as expected in the settings'],
  ])('%#: %s', (fit, words) => {
    expect(sayLifeFit(fit, true)).toBe(words);
  });
});

it('tells people of some depots what platforms have in common, and not how many failed elsewhere', () => {
  for (const basis of ['own', 'shared_shape', 'fleet'] as const) {
    const fit = toLifeFit({ ...row, basis, failures: 17, fleetFailures: 23, lives: 71 }, null, false);
    expect(fit).toMatchObject({ basis, shape: 2, lives: null, failures: null, fleet_failures: null });
    expect(fit?.says).toMatch(/on 3 Nov 2026, at all depots/);
    expect(fit?.says).not.toMatch(/17|23|71/);
  }
});

describe('a fitted life', () => {
  // log t50 = log 300,000 + w / 2, w = log(log 2) = -0.366513: t50 = 249,766 km. var = 0.01 + (w / 2)^2 0.02 - 2 (w / 2)
  // 0.005 = 0.01 + 0.000672 + 0.001833 = 0.012504, sd 0.111822; exp(1.959964 x 0.111822) = 1.24504. By hand.
  it('has B10 and B50 with bounds by the delta method', () => {
    const { b50_km: b50 } = toLifeFit(row, null, true) ?? {};
    expect(b50?.estimate).toBeCloseTo(249_766, -1);
    expect((b50?.high ?? 0) / (b50?.estimate ?? 1)).toBeCloseTo(1.24504, 4);
    expect((b50?.estimate ?? 0) / (b50?.low ?? 1)).toBeCloseTo(1.24504, 4);
  });

  it('is that of the settings of now, without bounds, where nothing was fitted', () => {
    const expected = {
      ...row,
      basis: 'expected' as const,
      varLogScale: null,
      varLogShape: null,
      covLogs: null,
    };
    expect(toLifeFit(expected, 300_000, true)).toMatchObject({
      shape: 2.2,
      scale_km: expect.closeTo(338_753, 0),
      b10_km: { low: null, high: null },
    });
    expect(toLifeFit(expected, null, true)).toBeNull();
  });
});
