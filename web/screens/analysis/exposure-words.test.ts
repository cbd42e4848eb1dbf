import { describe, expect, it } from 'vitest';
import type { CoxTerm } from '#server/contract/lives.ts';
import { metricUnits } from '#web/format/units.ts';
import { readRatio, sayExposureLevel, sayRatio } from './exposure-words.ts';

const imperial = { distance: 'mi', temperature: 'F' } as const;
const term = (part: Partial<CoxTerm>): CoxTerm => {
  const { coef = 0.05, se = 0.01 } = part;
  return {
    name: 'fluid_c',
    coef,
    se,
    z: coef / se,
    p: 0.001,
    hazard_ratio: Math.exp(coef),
    low: Math.exp(coef - 2 * se),
    high: Math.exp(coef + 2 * se),
    mean: 90,
    sd: 11,
    ...part,
  };
};

describe('a hazard ratio in words', () => {
  it('is told for a round step near the spread between lives', () => {
    const row = readRatio(term({}), metricUnits);
    expect(row.name).toBe('10\u00a0°C hotter fluid');
    // exp(0.05 x 10) = 1.6487; bounds exp((0.05 -+ 0.02) x 10) = 1.3499 and 2.0138, by hand.
    expect([row.ratio, row.low, row.high].map((one) => one.toFixed(4))).toEqual([
      '1.6487',
      '1.3499',
      '2.0138',
    ]);
    expect(sayRatio(row)).toBe('10\u00a0°C hotter fluid: fails 1.65 times as often (1.35 to 2.01)');
  });

  it('takes the step in the units of the reader', () => {
    const row = readRatio(term({}), imperial);
    expect(row.name).toBe('20\u00a0°F hotter fluid');
    // 20 degF are 11.11 degC: exp(0.05 x 11.11) = 1.7429
    expect(row.ratio.toFixed(4)).toBe('1.7429');
    expect(readRatio(term({ name: 'heat_mj_per_1000km', sd: 1.4 }), imperial).name).toBe(
      '2\u00a0MJ more clutch heat per 1,000\u00a0mi',
    );
  });

  it('says where no difference can be told', () => {
    const row = readRatio(term({ name: 'hot_pct', coef: 0.01, se: 0.02, sd: 6 }), metricUnits);
    expect(sayRatio(row)).toMatch(
      /^5\u00a0% more of the time with hot fluid: no difference can be told, 1\.05 /,
    );
  });

  it('has as many digits whatever its size', () => {
    const row = { name: 'x', ratio: 0.3, low: 0.1, high: 0.742, p: 0.04 };
    expect(sayRatio(row)).toBe('x: fails 0.30 times as often (0.10 to 0.74)');
  });

  it('names an exposure that is not its own as it comes', () => {
    expect(readRatio(term({ name: 'rush hour', sd: 0 }), metricUnits).name).toBe('rush hour, 1 more');
    expect(readRatio(term({ name: 'fluid_c' }), null).name).toBe('fluid_c, 10 more');
  });
});

it('says the level of an exposure in the units of the reader', () => {
  expect(sayExposureLevel('fluid_c', 100, imperial)).toBe('212\u00a0°F');
  expect(sayExposureLevel('heat_mj_per_1000km', 10, imperial)).toBe('16\u00a0MJ per 1,000\u00a0mi');
  expect(sayExposureLevel('load_pct', 44.6, metricUnits)).toBe('45\u00a0%');
});
