import { beforeAll, describe, expect, it } from 'vitest';
import { depotInput, lifeInput, platformInput, vehicleInput } from '#server/contract/fleet.ts';
import { getScenario, scenarioNames } from './scenarios.ts';
import { type Simulation, simulateFleet } from './simulate.ts';

const end = new Date('2026-03-04T12:00:00Z');

describe('the operator', () => {
  let operator: Simulation;
  beforeAll(() => {
    operator = simulateFleet(getScenario('operator', { end }));
  }, 30_000);
  const share = (count: number) => count / operator.truth.vehicles.length;

  it('has 240 vehicles on three platforms at four depots', () => {
    const { vehicles } = operator.truth;
    expect(vehicles).toHaveLength(240);
    expect(new Set(vehicles.map((vehicle) => vehicle.platform)).size).toBe(3);
    expect(new Set(vehicles.map((vehicle) => vehicle.depot)).size).toBe(4);
  });

  it('leaves most vehicles healthy, some drifting, few near or past the limit', () => {
    const { vehicles } = operator.truth;
    const faultless = vehicles.filter(({ lives }) => lives.every((life) => life.faultKind === 'none'));
    const drifting = vehicles.filter(({ onsetKm, kmNow }) => onsetKm !== null && onsetKm <= kmNow);
    const near = vehicles.filter(({ kmToLimit }) => kmToLimit !== null && kmToLimit <= 2000);
    expect(share(faultless.length)).toBeGreaterThanOrEqual(0.75);
    expect(share(drifting.length)).toBeGreaterThanOrEqual(0.1);
    expect(share(drifting.length)).toBeLessThanOrEqual(0.14);
    expect(share(near.length)).toBeGreaterThanOrEqual(0.02);
    expect(share(near.length)).toBeLessThanOrEqual(0.04);
  });

  it('has every kind of fault, converters changed with and without a report, and failures without notice', () => {
    const { vehicles } = operator.truth;
    const lives = vehicles.flatMap((vehicle) => vehicle.lives);
    expect(new Set(lives.map((life) => life.faultKind)).size).toBe(8);
    const changed = vehicles.filter((vehicle) => vehicle.lives.length === 2);
    expect(changed.filter(({ lives: [, next] }) => next?.reported).length).toBeGreaterThanOrEqual(12);
    expect(changed.filter(({ lives: [, next] }) => next?.reported === false)).toHaveLength(4);
    expect(lives.filter((life) => life.faultKind === 'sudden' && life.ended === 'failed')).toHaveLength(4);
  });

  it('writes down a truth that agrees with itself', () => {
    for (const { onsetKm, crossingKm, kmNow, kmToLimit, referenceSlipNowRpm, limitRpm, faultKind } of operator
      .truth.vehicles) {
      if (crossingKm === null) expect(kmToLimit).toBeNull();
      // Each is rounded to 0.1 km.
      else expect(Math.abs((kmToLimit ?? Number.NaN) - Math.max(0, crossingKm - kmNow))).toBeLessThan(0.16);
      if (onsetKm !== null && crossingKm !== null) expect(onsetKm).toBeLessThanOrEqual(crossingKm);
      if (faultKind === 'none') expect(referenceSlipNowRpm).toBeLessThan(25);
      if (crossingKm !== null && crossingKm > kmNow) expect(referenceSlipNowRpm).toBeLessThan(limitRpm);
      if (crossingKm !== null && crossingKm < kmNow) expect(referenceSlipNowRpm).toBeGreaterThan(limitRpm);
    }
  });

  it('sets up only what the contract accepts', () => {
    const { platforms, depots, vehicles, lives } = operator.setUp;
    for (const one of platforms) platformInput.parse(one);
    for (const one of depots) depotInput.parse(one);
    for (const one of vehicles) vehicleInput.parse(one);
    for (const one of lives) lifeInput.parse(one);
    expect(vehicles).toHaveLength(237);
    const keys = lives.map((life) => `${life.vehicle}|${life.fitted_km}`);
    expect(new Set(keys).size).toBe(keys.length);
  });
});

it.each(scenarioNames)('builds the scenario %s', { timeout: 30_000 }, (name) => {
  const scenario = getScenario(name, { end });
  const { truth } = simulateFleet(scenario);
  expect(truth.vehicles).toHaveLength(scenario.vehicles);
  for (const vehicle of truth.vehicles) expect(Number.isFinite(vehicle.referenceSlipNowRpm)).toBe(true);
});
