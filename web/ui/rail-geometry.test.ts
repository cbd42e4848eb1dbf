import { describe, expect, it } from 'vitest';
import { metricUnits } from '#web/format/units.ts';
import { scaleForHorizon, shapeRail } from './rail-geometry.ts';

const nothing = { p10: null, p50: null, p90: null };

describe('the shape of a rail', () => {
  it('is a thick stroke from p10 to p90 with a notch at p50', () => {
    expect(shapeRail({ p10: 1500, p50: 3000, p90: 7500 }, 'book', 15_000)).toEqual({
      kind: 'interval',
      from: 0.1,
      to: 0.5,
      notch: 0.2,
      open: false,
    });
  });

  it('ends in an arrow where p90 leaves the scale', () => {
    expect(shapeRail({ p10: 7500, p50: 18_000, p90: 40_000 }, 'watch', 15_000)).toEqual({
      kind: 'interval',
      from: 0.5,
      to: 1,
      notch: null,
      open: true,
    });
  });

  it('ends in an arrow where p90 is unknown', () => {
    expect(shapeRail({ p10: 7500, p50: 9000, p90: null }, 'watch', 15_000)).toMatchObject({
      to: 1,
      open: true,
    });
  });

  it('is an arrow with its figure where all of it is off the scale', () => {
    expect(shapeRail({ p10: 20_000, p50: 31_000, p90: null }, 'watch', 15_000)).toEqual({
      kind: 'beyond',
      km: 31_000,
    });
  });

  it('says that the limit is passed where no distance is left, more likely than not', () => {
    expect(shapeRail({ p10: 0, p50: 0, p90: 0 }, 'hold', 15_000)).toEqual({ kind: 'passed' });
    expect(shapeRail({ p10: 0, p50: 0, p90: 1500 }, 'hold', 15_000)).toEqual({ kind: 'passed' });
  });

  it('keeps what is left of an interval that begins at the limit', () => {
    expect(shapeRail({ p10: 0, p50: 750, p90: 1500 }, 'hold', 15_000)).toMatchObject({
      from: 0,
      to: 0.1,
      notch: 0.05,
    });
  });

  it('is empty where nothing drifts and dotted where too little is known', () => {
    expect(shapeRail(nothing, 'steady', 15_000)).toEqual({ kind: 'empty' });
    expect(shapeRail(nothing, 'unknown', 15_000)).toEqual({ kind: 'unknown' });
  });
});

describe('the scale of a view', () => {
  it.each([
    [1000, 3000],
    [3000, 10_000],
    [5000, 15_000],
    [20_000, 60_000],
  ])('for a horizon of %d km ends at %d km', (horizon, end) => {
    expect(scaleForHorizon(horizon, metricUnits)).toBe(end);
  });

  it('ends at a round figure of miles for a reader of miles', () => {
    // 3 x 5,000 km are 9,321 mi, so the scale ends at 10,000 mi
    expect(scaleForHorizon(5000, { ...metricUnits, distance: 'mi' })).toBeCloseTo(16_093.44, 6);
  });
});
