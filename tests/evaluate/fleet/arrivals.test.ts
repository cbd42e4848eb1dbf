import { describe, expect, it } from 'vitest';
import { type ReadingInput, readingInput } from '#server/contract/readings.ts';
import { DAY_MS } from './drive-calendar.ts';
import { recipes } from './recipes.ts';
import { simulateFleet } from './simulate-fleet.ts';
import type { FleetRecipe } from './simulated-fleet.ts';

const small = recipes.find(({ name }) => name === 'small');
if (small === undefined) throw new Error('the tests require the recipe "small"');
const recipe: FleetRecipe = { ...small, vehicles: 50, leanShare: 0.3 };

describe('arrivals', () => {
  const fleet = simulateFleet(recipe);
  const batches = [...fleet.arrivals];
  const arrived = batches.flatMap(({ atMs, readings }) =>
    readings.map((reading) => ({ atMs, reading: reading as ReadingInput })),
  );
  const share = (is: (reading: ReadingInput) => boolean) =>
    arrived.filter(({ reading }) => is(reading)).length / arrived.length;

  it('are the same from the same seed and others from another', () => {
    expect([...simulateFleet(recipe).arrivals]).toEqual(batches);
    expect([...fleet.arrivals]).toEqual(batches);
    expect([...simulateFleet({ ...recipe, seed: 'other' }).arrivals]).not.toEqual(batches);
  });

  it('are readings as the contract takes them', () => {
    const refused = arrived.filter(({ reading }) => !readingInput.safeParse(reading).success);
    expect(refused).toEqual([]);
    expect(arrived.length).toBeGreaterThan(40_000);
  });

  it('come in order, one batch a day, none before it was measured', () => {
    batches.forEach(({ atMs }, day) => {
      expect(atMs).toBe(fleet.fromMs + (day + 1) * DAY_MS);
    });
    expect(batches.at(-1)?.atMs).toBe(fleet.toMs);
    expect(arrived.every(({ atMs, reading }) => Date.parse(reading.at) < atMs)).toBe(true);
  });

  it('come twice in 1 % and late, by days to weeks, in some', () => {
    const first = new Map<string, ReadingInput>();
    let again = 0;
    for (const { reading } of arrived) {
      const key = `${reading.vehicle} ${reading.at}`;
      const before = first.get(key);
      if (before === undefined) first.set(key, reading);
      else {
        expect(reading).toEqual(before);
        again++;
      }
    }
    expect(again / arrived.length).toBeGreaterThan(0.007);
    expect(again / arrived.length).toBeLessThan(0.013);
    const delayDays = arrived.map(({ atMs, reading }) => (atMs - Date.parse(reading.at)) / DAY_MS);
    const late = delayDays.filter((delay) => delay > 1).length / delayDays.length;
    expect(late).toBeGreaterThan(0.01);
    expect(late).toBeLessThan(0.08);
    expect(Math.max(...delayDays)).toBeGreaterThan(14);
  });

  it('hold glitches, moments without steady lockup, and trouble codes on a few', () => {
    expect(share((one) => Math.abs(one.slip_rpm ?? 0) > 1500)).toBeGreaterThan(0.001);
    expect(share((one) => one.slip_rpm === 0)).toBeGreaterThan(0.001);
    expect(share((one) => one.duty_pct < 20)).toBeGreaterThan(0.03);
    expect(share((one) => one.shifting === true)).toBeGreaterThan(0.01);
    expect(share((one) => (one.fluid_c ?? 85) < 55)).toBeGreaterThan(0.02);
    expect(share((one) => (one.slip_rpm ?? 0) < -15)).toBeGreaterThan(0.03);
    expect(share((one) => one.codes?.includes('P0741') ?? false)).toBeGreaterThan(0);
    expect(share((one) => one.codes?.includes('P0741') ?? false)).toBeLessThan(0.02);
  });

  it('lack load and speed from lean gateways, of a vehicle always or never', () => {
    const kinds = new Map<string, string>();
    const mixed = arrived.filter(({ reading }) => {
      const kind = `${reading.load_pct === undefined} ${reading.speed_kmh === undefined}`;
      const before = kinds.get(reading.vehicle) ?? kind;
      kinds.set(reading.vehicle, before);
      return kind !== before;
    });
    expect(mixed).toEqual([]);
    expect([...new Set(kinds.values())].sort()).toEqual(['false false', 'true true']);
    const leanShare = [...kinds.values()].filter((kind) => kind === 'true true').length / kinds.size;
    expect(leanShare).toBeGreaterThan(0.15);
    expect(leanShare).toBeLessThan(0.5);
  });
});
