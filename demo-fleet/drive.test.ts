import { describe, expect, it } from 'vitest';
import { availableTorqueNm, driveAt } from './drive.ts';
import { platforms } from './platforms.ts';

describe.each(platforms)('driving $id', (platform) => {
  const road = { speedKmh: 60, gradePct: 0, accelerationMs2: 0, payloadShare: 0.5 };

  it('needs the steady torque that road and air resistance ask for', () => {
    const point = driveAt(platform, road);
    const { body, driveline } = platform;
    const forceN =
      (body.emptyKg + 0.5 * body.payloadKg) * 9.81 * body.rolling +
      0.5 * 1.22 * body.dragAreaM2 * (60 / 3.6) ** 2;
    const powerW = (point.torqueNm * point.turbineRpm * 2 * Math.PI) / 60;
    expect(powerW * driveline.efficiency).toBeCloseTo((forceN * 60) / 3.6, 3);
  });

  it('is loaded more uphill, and not at all while it rolls downhill', () => {
    const loads = [-4, 0, 2].map((gradePct) => driveAt(platform, { ...road, gradePct }).loadPct);
    expect(loads[0]).toBe(0);
    expect(loads[2]).toBeGreaterThan(loads[1] ?? Number.NaN);
    expect(driveAt(platform, { ...road, gradePct: -4 }).torqueNm).toBeLessThan(0);
  });

  it('never gives more torque than the engine has', () => {
    for (const gradePct of [5, 8, 12]) {
      const point = driveAt(platform, { ...road, gradePct, payloadShare: 1 });
      expect(point.torqueNm).toBeLessThanOrEqual(availableTorqueNm(platform, point.turbineRpm));
      expect(point.loadPct).toBeLessThanOrEqual(100);
    }
  });
});
