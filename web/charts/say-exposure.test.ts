import { describe, expect, it } from 'vitest';
import type { VehicleSeries } from '#server/contract/vehicle.ts';
import { metricUnits } from '#web/format/units.ts';
import { sayHeat, sayHot } from './say-exposure.ts';

const platform = { clutch_heat_mj_per_1000km: 10, heat_vehicles: 40, hot_share: 0.04, hot_vehicles: 45 };
const exposure = (changes: Partial<VehicleSeries['exposure']> = {}): VehicleSeries['exposure'] => ({
  fluid_c: null,
  load_pct: null,
  clutch_heat_mj_per_1000km: 32,
  hot_from_c: 100,
  hot_share: 0.12,
  platform,
  ...changes,
});

describe('clutch heat', () => {
  it('is set against the usual of the platform', () => {
    expect(sayHeat(exposure(), metricUnits)).toEqual({
      name: 'Clutch heat',
      own: '32.0\u00a0MJ',
      per: 'per 1,000\u00a0km',
      beside: '3.2 times the platform’s usual of 10.0\u00a0MJ (median of 40 vehicles)',
    });
    const beside = (heat: number) =>
      sayHeat(exposure({ clutch_heat_mj_per_1000km: heat }), metricUnits)?.beside;
    expect(beside(10.5)).toMatch(/^about the platform’s usual of 10\.0\u00a0MJ/);
    expect(beside(4)).toMatch(/^0\.4 times/);
    expect(beside(204)).toMatch(/^20 times/);
  });

  // 1 mile is 1.609344 km (NIST SP 811).
  it('is said for each thousand miles where asked, the times the same', () => {
    const said = sayHeat(exposure(), { ...metricUnits, distance: 'mi' });
    expect(said).toMatchObject({ own: '51.5\u00a0MJ', per: 'per 1,000\u00a0mi' });
    expect(said?.beside).toMatch(/^3\.2 times the platform’s usual of 16\.1\u00a0MJ/);
  });

  it('stands alone where nothing is usual, and is not said where torque is not known', () => {
    expect(sayHeat(exposure({ platform: null }), metricUnits)?.beside).toBe(null);
    expect(
      sayHeat(exposure({ platform: { ...platform, clutch_heat_mj_per_1000km: null } }), metricUnits)?.beside,
    ).toBe(null);
    expect(sayHeat(exposure({ clutch_heat_mj_per_1000km: null }), metricUnits)).toBe(null);
  });
});

describe('hot fluid', () => {
  it('is a share of the readings beside the usual one', () => {
    expect(sayHot(exposure(), { ...metricUnits, temperature: 'F' })).toEqual({
      name: 'Fluid at 212\u00a0°F or more',
      own: '12\u00a0%',
      per: 'of the readings',
      beside: 'the platform’s usual is 4\u00a0% (median of 45 vehicles)',
    });
    expect(sayHot(exposure({ platform: null }), metricUnits)?.beside).toBe(null);
    expect(sayHot(exposure({ hot_share: null }), metricUnits)).toBe(null);
  });
});
