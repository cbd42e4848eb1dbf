import { expect, it } from 'vitest';
import type { ReadingInput } from '#server/contract/readings.ts';
import { recipes } from './recipes.ts';
import { simulateFleet } from './simulate-fleet.ts';
import type { FleetRecipe } from './simulated-fleet.ts';

const small = recipes.find(({ name }) => name === 'small');
if (small === undefined) throw new Error('the tests require the recipe "small"');
/** Only instruments and their bias are left between physics and reading. */
const quiet: FleetRecipe = {
  ...small,
  slipNoiseRpm: [0, 0],
  dayEffectRpm: [0, 0],
  seasonRpm: 0,
  slipQuantaRpm: [0.125],
  glitchShare: 0,
  leanShare: 0,
  farShare: 0,
  commonSteps: [],
};
const references: Record<string, [number, number, number]> = {
  'bus-12': [80, 45, 88],
  'tip-26': [88, 60, 92],
};

/** Slip read near the reference point as a share of what the truth says of the same moment. */
function compareNearReference(recipe: FleetRecipe): { trueRpm: number; share: number }[] {
  const { truth, arrivals } = simulateFleet(recipe);
  const byUnit = new Map(truth.map((vehicle) => [vehicle.unit, vehicle]));
  const pairs: { trueRpm: number; share: number }[] = [];
  for (const { readings } of arrivals)
    for (const reading of readings as ReadingInput[]) {
      const vehicle = byUnit.get(reading.vehicle);
      const [duty, load, fluid] = references[vehicle?.platform ?? ''] ?? [85, 50, 85];
      const isNear =
        Math.abs(reading.duty_pct - duty) <= 2 &&
        Math.abs((reading.load_pct ?? 0) - load) <= 2 &&
        Math.abs((reading.fluid_c ?? 0) - fluid) <= 3;
      const isSteady = reading.shifting === false && (reading.speed_kmh ?? 0) > 47;
      if (!isNear || !isSteady || vehicle === undefined) continue;
      const trueRpm = vehicle.referenceSlipAt(Date.parse(reading.at));
      pairs.push({ trueRpm, share: (reading.slip_rpm ?? 0) / trueRpm });
    }
  return pairs;
}

const median = (of: { share: number }[]) =>
  of.map(({ share }) => share).sort((a, b) => a - b)[of.length >> 1];

it.each(['breakaway', 'film'] as const)('reads the true slip near the reference point, %s', (friction) => {
  const pairs = compareNearReference({ ...quiet, vehicles: 160, friction });
  const healthy = pairs.filter(({ trueRpm }) => trueRpm < 33);
  const worn = pairs.filter(({ trueRpm }) => trueRpm > 60);
  expect(worn.length).toBeGreaterThan(80);
  expect(healthy.length).toBeGreaterThan(800);
  expect(Math.abs((median(healthy) ?? 0) - 1)).toBeLessThan(0.04);
  // A vehicle's load sensor is biased by 1.5 points, worth 4 to 5 % of slip of a worn clutch; about ten vehicles count.
  expect(Math.abs((median(worn) ?? 0) - 1)).toBeLessThan(0.06);
  // Bias, 2 points of load and of duty and 3 degrees add up to some 13 % (one sd); 0.4 is three of them.
  const near = worn.filter(({ share }) => Math.abs(share - 1) < 0.4);
  expect(near.length / worn.length).toBeGreaterThan(0.97);
});

it('reads a common step of a platform as it is', () => {
  const stepped = { ...quiet, commonSteps: [{ platform: 0, when: 0, rpm: 30 }] };
  const healthyMedian = (recipe: FleetRecipe) => {
    const { truth, arrivals } = simulateFleet(recipe);
    const units = new Set(
      truth.filter(({ platform, wear }) => platform === 'haul-18' && wear === 'none').map((v) => v.unit),
    );
    const slips: number[] = [];
    for (const { readings } of arrivals)
      for (const one of readings as ReadingInput[])
        if (
          units.has(one.vehicle) &&
          one.duty_pct > 70 &&
          one.shifting === false &&
          (one.speed_kmh ?? 0) > 47
        )
          slips.push(one.slip_rpm ?? 0);
    return slips.sort((a, b) => a - b)[slips.length >> 1] ?? 0;
  };
  expect(healthyMedian(stepped) - healthyMedian(quiet)).toBeGreaterThan(27);
  expect(healthyMedian(stepped) - healthyMedian(quiet)).toBeLessThan(33);
});
