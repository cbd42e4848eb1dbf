import { expect, it } from 'vitest';
import { summariseStretch } from '#server/engine/stretches/summarise-stretch.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { type ConditionEffects, type EffectEvidence, fitConditionEffects } from './fit-condition-effects.ts';

type RisenStretch = EffectEvidence & { rise: number };
const fitRisen = (evidence: readonly RisenStretch[], platform: ConditionEffects | null) =>
  fitConditionEffects(
    evidence,
    evidence.map(({ rise }) => rise),
    platform,
  );

const PER_STRETCH = 12;
const NOISE_RPM = 4;

/** Stretches whose readings slip by a ruler of load, fluid and duty around a level that is free in each. */
function makeEvidence(
  stretches: number,
  ruler: (rise: number) => [load: number, fluid: number, duty: number],
  rises: (i: number) => number,
  seed = 3,
  withLoad = true,
): RisenStretch[] {
  const { normal } = seededRandom(seed);
  return Array.from({ length: stretches }, (_, i) => {
    const rise = rises(i);
    const [load, fluid, duty] = ruler(rise);
    const level = 20 + 100 * rise + 5 * normal();
    const { moments, scaleRpm, weight } = summariseStretch(
      Array.from({ length: PER_STRETCH }, () => {
        const at = { loadPct: 50 + 12 * normal(), fluidC: 85 + 8 * normal(), dutyPct: 80 + 6 * normal() };
        const slipRpm =
          level +
          load * (at.loadPct - 50) +
          fluid * (at.fluidC - 85) +
          duty * (at.dutyPct - 80) +
          NOISE_RPM * normal();
        return { ...at, loadPct: withLoad ? at.loadPct : null, odometerKm: 1, slipRpm, weight: 1 };
      }),
    );
    return { moments, scaleRpm, weight, rise };
  });
}

it('runs as its note says', () => {
  expect(fitConditionEffects([], [], null).healthy).toEqual([0, 0, 0]);
});

// Standard error of a slope from 200 stretches of 12: 4 / (sd of x * sqrt(200 * 11)): load 0.007, fluid 0.011, duty
// 0.014 rpm per unit; 5 of them. Beside it stands a bias: the stretch's Huber weights act on slip, not on what the
// conditions leave of it, and shorten every effect by some hundredths; a tenth is allowed for it.
it('recovers the effects that the readings were made with', () => {
  const evidence = makeEvidence(
    200,
    () => [0.6, 0.25, -0.5],
    () => 0,
  );
  const [load, fluid, duty] = fitRisen(evidence, null).healthy;
  expect(Math.abs(load - 0.6)).toBeLessThan(5 * 0.007 + 0.06);
  expect(Math.abs(fluid - 0.25)).toBeLessThan(5 * 0.011 + 0.025);
  expect(Math.abs(duty + 0.5)).toBeLessThan(5 * 0.014 + 0.05);
});

// Half of the stretches healthy, half risen by 100 rpm: the difference has the error of two halves, sqrt(2 * 2) times
// the above; a risen clutch's stretches are ragged (load alone makes 12 * 2.6 = 31 rpm), so 6 of them.
it('tells the steeper effects of a worn clutch from those of a healthy one', () => {
  const ruler = (rise: number): [number, number, number] => [0.6 + 2 * rise, 0.2, -0.5 - 1.5 * rise];
  const evidence = makeEvidence(400, ruler, (i) => (i % 2 === 0 ? 0 : 1));
  const { healthy, worn } = fitRisen(evidence, null);
  expect(Math.abs(healthy[0] - 0.6)).toBeLessThan(0.1);
  expect(Math.abs(worn[0] - 2)).toBeLessThan(0.2);
  expect(Math.abs(worn[1])).toBeLessThan(0.2);
  expect(Math.abs(worn[2] + 1.5)).toBeLessThan(0.3);
});

// Half of the stretches were driven within 2 degC and show no heat at all, half within 20 and show 4 rpm per degC: by
// their own spread the ragged ones would count a hundredth and the effect come out below 1.
it('believes the stretches in which the conditions changed', () => {
  const { normal } = seededRandom(11);
  const evidence = Array.from({ length: 60 }, (_, i): RisenStretch => {
    const isSteady = i % 2 === 0;
    const { moments, scaleRpm, weight } = summariseStretch(
      Array.from({ length: PER_STRETCH }, () => {
        const fluidC = 85 + (isSteady ? 1 : 10) * normal();
        const slipRpm = 60 + (isSteady ? 0 : 4 * (fluidC - 85)) + normal();
        return { odometerKm: 1, slipRpm, dutyPct: 80, fluidC, loadPct: 50, weight: 1 };
      }),
    );
    return { moments, scaleRpm, weight, rise: 0 };
  });
  expect(fitRisen(evidence, null).healthy[1]).toBeGreaterThan(3);
});

it('is free of drift: what changes from stretch to stretch is no effect', () => {
  const moving = makeEvidence(
    100,
    () => [0, 0, 0],
    (i) => i / 50,
  );
  for (const one of fitRisen(moving, null).healthy) expect(Math.abs(one)).toBeLessThan(0.1);
});

const platform: ConditionEffects = { healthy: [0.5, 0.2, -0.4], worn: [1.5, 0.1, -1] };

it('keeps the platform for a vehicle without readings', () => {
  const kept = fitRisen([], platform);
  platform.healthy.forEach((one, i) => {
    expect(kept.healthy[i]).toBeCloseTo(one, 9);
    expect(kept.worn[i]).toBeCloseTo(platform.worn[i] ?? Number.NaN, 9);
  });
});

it('moves from the platform to the vehicle with what the vehicle shows', () => {
  const of = (stretches: number) =>
    fitRisen(
      makeEvidence(
        stretches,
        () => [1, 0.2, -0.4],
        () => 0,
      ),
      platform,
    ).healthy[0];
  const [few, many] = [of(2), of(300)];
  expect(few).toBeGreaterThan(0.5);
  expect(few).toBeLessThan(many);
  expect(many).toBeGreaterThan(0.9);
});

it('keeps the prior of load where the feed has none, and learns the rest', () => {
  const blind = makeEvidence(
    200,
    () => [0, 0.3, -0.5],
    () => 0,
    5,
    false,
  );
  const { healthy } = fitRisen(blind, platform);
  expect(healthy[0]).toBeCloseTo(0.5, 9);
  expect(Math.abs(healthy[1] - 0.3)).toBeLessThan(0.06);
});
