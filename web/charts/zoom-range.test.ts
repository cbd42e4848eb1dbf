import { describe, expect, it } from 'vitest';
import { fitRange, panBy, zoomAbout } from './zoom-range.ts';

const whole = { fromKm: 100_000, toKm: 200_000 };

describe('a range of the mileage', () => {
  it('keeps the kilometre under the pointer where it is while zooming', () => {
    const range = zoomAbout(whole, whole, 130_000, 0.5);
    expect(range).toEqual({ fromKm: 115_000, toKm: 165_000 });
    expect((130_000 - range.fromKm) / (range.toKm - range.fromKm)).toBeCloseTo(0.3);
  });

  it('never comes closer than 3,000 km and never wider than the whole', () => {
    const near = zoomAbout(whole, whole, 150_000, 0.0001);
    expect(near.toKm - near.fromKm).toBeCloseTo(3000);
    expect(zoomAbout(near, whole, 150_000, 1e6)).toEqual(whole);
  });

  it('stops at the ends when it moves along', () => {
    expect(panBy({ fromKm: 110_000, toKm: 130_000 }, whole, -50_000)).toEqual({
      fromKm: 100_000,
      toKm: 120_000,
    });
  });

  it('brings a range from an old address back into what there is', () => {
    expect(fitRange({ fromKm: 0, toKm: 10_000 }, whole)).toEqual({ fromKm: 100_000, toKm: 110_000 });
  });

  it('shows all of a vehicle that has run less than the least span', () => {
    const short = { fromKm: 0, toKm: 1400 };
    expect(zoomAbout(short, short, 700, 0.5)).toEqual(short);
  });
});
