import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isFlagged, isHealthy } from './compare-with-truth.ts';
import { type Recovered, recoverFleet } from './recover-fleet.ts';

let fleet: Recovered;
beforeAll(async () => {
  fleet = await recoverFleet('seal-hot');
});
afterAll(() => fleet?.app.stop());

const leaking = () => fleet.truth.vehicles.filter((one) => one.faultKind === 'seal_leak');

describe('seals that leak when they are hot', () => {
  it('put their four vehicles on top of the list, all to be inspected', () => {
    const units = leaking().map((one) => one.unit);
    expect(units.length).toBe(4);
    const top = fleet.rows.slice(0, 4);
    expect(top.map((row) => row.vehicle).sort()).toEqual(units.sort());
    expect(top.every(isFlagged)).toBe(true);
  });

  it('flag no healthy vehicle through a summer and a winter', () => {
    const healthy = fleet.truth.vehicles.filter(isHealthy);
    expect(healthy.length).toBe(12);
    expect(healthy.filter((one) => isFlagged(fleet.rowOf(one.unit))).map((one) => one.unit)).toEqual([]);
  });
});
