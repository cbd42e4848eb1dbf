import { expect, it } from 'vitest';
import { usualExposure } from './usual-exposure.ts';

// 2 kW at 80 km/h: 1,000 km take 12.5 h, in which 2 kW make 25 kWh, or 90 MJ.
const vehicle = (heatKw: number, hot: number, readings = 100) => ({ heatKw, speedKmh: 400, hot, readings });

it('is the median over the vehicles, each counting once', () => {
  const vehicles = [vehicle(10, 10), vehicle(5, 5), vehicle(20, 20), vehicle(100, 90), vehicle(8, 8)];
  expect(usualExposure(vehicles)).toEqual({
    usualHeatMjPer1000km: 90,
    heatVehicles: 5,
    usualHotShare: 0.1,
    hotVehicles: 5,
  });
});

it('leaves out vehicles whose torque or temperature is not known', () => {
  const unknown = { heatKw: 0, speedKmh: 0, hot: 0, readings: 0 };
  const vehicles = [...Array.from({ length: 5 }, () => vehicle(10, 10)), unknown, unknown];
  expect(usualExposure(vehicles)).toMatchObject({
    usualHeatMjPer1000km: 90,
    heatVehicles: 5,
    hotVehicles: 5,
  });
});

it('says nothing of fewer than five', () => {
  expect(usualExposure(Array.from({ length: 4 }, () => vehicle(10, 10)))).toEqual({
    usualHeatMjPer1000km: null,
    heatVehicles: 4,
    usualHotShare: null,
    hotVehicles: 4,
  });
});
