import { expect, it } from 'vitest';
import { toEngineSettings } from './engine-settings.ts';

it('assumes the defaults of the contract for a vehicle without a platform', () => {
  expect(toEngineSettings(null)).toMatchObject({
    life: null,
    referenceTorqueNm: null,
    gate: { lowLoadPct: 15, overrunSlipRpm: -15, lowSpeedKmh: 30, coldFluidC: 55, hotFluidC: 125 },
  });
});

it('takes the lowest band edge as the lowest duty that commands lockup', () => {
  const { bandEdgesPct, gate } = toEngineSettings(null);
  expect(gate.lowestDutyPct).toBe(bandEdgesPct[0]);
});
