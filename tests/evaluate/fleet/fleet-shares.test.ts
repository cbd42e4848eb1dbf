import { describe, expect, it } from 'vitest';
import { recipes } from './recipes.ts';
import { simulateFleet } from './simulate-fleet.ts';

const LATE_TO_TEST_MS = 120_000;

it('keeps about half of the families aside, with seeds and families of their own', () => {
  const kept = recipes.filter((recipe) => recipe.kept);
  const tuning = recipes.filter((recipe) => !recipe.kept);
  expect(recipes.filter(({ vehicles }) => vehicles >= 300).length).toBeGreaterThanOrEqual(12);
  expect(new Set(recipes.map(({ seed }) => seed)).size).toBe(recipes.length);
  expect(new Set(recipes.map(({ name }) => name)).size).toBe(recipes.length);
  expect(kept.length).toBeGreaterThanOrEqual(6);
  for (const { family } of kept) expect(tuning.map((recipe) => recipe.family)).not.toContain(family);
});

describe.each(recipes.filter(({ vehicles }) => vehicles >= 300))('fleet $name', (recipe) => {
  it('ends with the shares of healthy, drifting and failed vehicles that it should', {
    timeout: LATE_TO_TEST_MS,
  }, () => {
    const { truth, toMs } = simulateFleet(recipe);
    const share = (is: (left: number | null, drifts: boolean) => boolean) =>
      truth.filter((vehicle) => is(vehicle.kmToLimitAt(toMs), vehicle.hasOnsetAt(toMs))).length /
      truth.length;
    const within = (km: number) => share((left, drifts) => drifts && left !== null && left > 0 && left <= km);
    expect(truth).toHaveLength(recipe.vehicles);
    expectBetween(
      share((_, drifts) => !drifts),
      0.68,
      0.77,
    );
    expectBetween(within(20_000), 0.12, 0.21);
    expectBetween(within(5000), 0.05, 0.1);
    expectBetween(within(2000), 0.01, 0.05);
    expectBetween(
      share((left) => left === 0),
      0.01,
      0.03,
    );
    const crossed = truth.flatMap(({ crossings }) => crossings).length;
    if (recipe.family === 'replaced') expectBetween(crossed, 50, 90);
    else expectBetween(crossed, 20, 40);
    const replaced = truth.flatMap(({ replacements }) => replacements);
    expectBetween(replaced.filter(({ reported }) => !reported).length / replaced.length, 0.2, 0.7);
    const slipsOnArrival = truth.filter(
      ({ firstReadingMs, limitRpm, referenceSlipAt }) => referenceSlipAt(firstReadingMs) > 0.5 * limitRpm,
    );
    expectBetween(slipsOnArrival.length, 2, 40);
  });
});

it('makes some 600,000 readings; how long that takes is noted, not asked', {
  timeout: LATE_TO_TEST_MS,
}, async ({ annotate }) => {
  const mixed = recipes.find(({ name }) => name === 'mixed') ?? recipes[0];
  if (mixed === undefined) throw new Error('the test requires a recipe');
  const startedMs = performance.now();
  let readings = 0;
  for (const batch of simulateFleet(mixed).arrivals) readings += batch.readings.length;
  await annotate(`${readings} readings in ${Math.round(performance.now() - startedMs)} ms`);
  expectBetween(readings, 450_000, 750_000);
});

function expectBetween(value: number, low: number, high: number): void {
  expect(value).toBeGreaterThanOrEqual(low);
  expect(value).toBeLessThanOrEqual(high);
}
