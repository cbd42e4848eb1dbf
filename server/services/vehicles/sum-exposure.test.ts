import { describe, expect, it } from 'vitest';
import type { StretchExposure } from '#db/queries/read-exposure.ts';
import { listSetAside, sumExposure } from './sum-exposure.ts';

const total: StretchExposure = {
  life: 1,
  stretch: 200,
  usable: 5,
  setAside: {},
  fluidBins: [0, 0, 1, 3, 0, 0, 0],
  loadBins: [0, 1, 0, 0, 0, 0],
  heatKwSum: 10,
  heatSpeedSum: 400,
};

describe('exposure', () => {
  it('is the share of readings in each bin, over all stretches', () => {
    const other = { ...total, fluidBins: [0, 0, 0, 3, 0, 0, 1] };
    const { fluid_c } = sumExposure([total, other]);
    expect(fluid_c?.map(({ share }) => share)).toEqual([0, 0, 0.125, 0.75, 0, 0, 0.125]);
    expect(fluid_c?.[0]).toMatchObject({ from: null, to: 60 });
    expect(fluid_c?.[6]).toMatchObject({ from: 110, to: null });
  });

  // 10 / 5 = 2 kW at 400 / 5 = 80 km/h: 1,000 km take 12.5 h, in which 2 kW make 25 kWh, or 90 MJ.
  it('is clutch heat in MJ for each 1,000 km', () => {
    expect(sumExposure([total]).clutch_heat_mj_per_1000km).toBe(90);
    expect(sumExposure([total, total]).clutch_heat_mj_per_1000km).toBe(90);
  });

  it('has the share of hot fluid, from 100 degC on', () => {
    const hot = { ...total, fluidBins: [0, 0, 1, 3, 0, 3, 1] };
    expect(sumExposure([hot])).toMatchObject({ hot_from_c: 100, hot_share: 0.5 });
    expect(sumExposure([]).hot_share).toBe(null);
  });

  it('has no temperature, load or heat where the feed has none', () => {
    const fluidBins = total.fluidBins.map(() => 0);
    const bare = { ...total, fluidBins, loadBins: null, heatKwSum: 0, heatN: 0, heatSpeedSum: 0 };
    const nothing = {
      fluid_c: null,
      load_pct: null,
      clutch_heat_mj_per_1000km: null,
      hot_from_c: 100,
      hot_share: null,
    };
    expect(sumExposure([bare])).toEqual(nothing);
    expect(sumExposure([])).toEqual(nothing);
  });

  it('has the shares of those stretches that have the signal', () => {
    const bare = { ...total, fluidBins: total.fluidBins.map(() => 0), loadBins: null };
    expect(sumExposure([total, bare, bare])).toMatchObject({
      fluid_c: sumExposure([total]).fluid_c,
      load_pct: sumExposure([total]).load_pct,
    });
  });
});

it('lists what was set aside at the middle of each stretch, and no reason that it does not know', () => {
  const aside = { ...total, setAside: { '2025-01': { cold: 2, shifting: 1, unheard_of: 4 } } };
  expect(listSetAside([total, aside])).toEqual([
    { odometer_km: 100_250, month: '2025-01', reason: 'cold', n: 2 },
    { odometer_km: 100_250, month: '2025-01', reason: 'shifting', n: 1 },
  ]);
});
