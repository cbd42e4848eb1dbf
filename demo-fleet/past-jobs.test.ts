import { beforeAll, describe, expect, it } from 'vitest';
import { dayOf } from './calendar.ts';
import { choosePastJobs, type PastJob, withoutReported } from './past-jobs.ts';
import { getScenario } from './scenarios.ts';
import { type Simulation, simulateFleet } from './simulate.ts';

const end = new Date('2026-03-04T12:00:00Z');
const endDay = dayOf(end.getTime());

describe('visits to the shop in the past of the whole operator', () => {
  let fleet: Simulation;
  let jobs: PastJob[];
  beforeAll(() => {
    fleet = simulateFleet(getScenario('operator', { end }));
    jobs = choosePastJobs(fleet);
  });

  it('are of each kind, on vehicles of their own, in the order of their days, before the last week', () => {
    expect(new Set(jobs.map(({ kind }) => kind))).toEqual(
      new Set(['converter', 'wiring', 'no_fault_found', 'declined']),
    );
    expect(new Set(jobs.map(({ unit }) => unit)).size).toBe(jobs.length);
    const days = jobs.map(({ day }) => day);
    expect(days).toEqual([...days].sort((one, other) => one - other));
    expect(Math.max(...days)).toBeLessThan(endDay - 7);
  });

  it('take a converter out where the truth has it changed, one of a platform at the most', () => {
    const changed = jobs.filter(({ kind }) => kind === 'converter');
    expect(new Set(changed.map(({ platform }) => platform)).size).toBe(changed.length);
    for (const { unit, converter } of changed) {
      const truth = fleet.truth.vehicles.find((one) => one.unit === unit);
      expect(truth?.lives.map(({ removedKm, reported }) => [removedKm, reported])).toEqual([
        [converter?.odometerKm, true],
        [null, true],
      ]);
    }
  });

  it('that ended without a repair are of vehicles far from the limit', () => {
    for (const { unit } of jobs.filter(({ kind }) => kind === 'no_fault_found' || kind === 'declined'))
      expect(fleet.truth.vehicles.find((one) => one.unit === unit)?.kmToLimit).toBeGreaterThan(10_000);
  });

  it('leave to the shop what it reports, and everything else to the office', () => {
    const changed = new Set(jobs.flatMap(({ unit, converter }) => (converter === null ? [] : [unit])));
    const left = withoutReported(fleet.setUp, jobs);
    const others = ({ lives }: Simulation['setUp']) => lives.filter(({ vehicle }) => !changed.has(vehicle));
    expect(others(left)).toEqual(others(fleet.setUp));
    expect({ ...left, lives: [] }).toEqual({ ...fleet.setUp, lives: [] });
    for (const unit of changed) {
      const own = left.lives.filter(({ vehicle }) => vehicle === unit);
      const all = fleet.setUp.lives.filter(({ vehicle }) => vehicle === unit);
      const { fitted_km, source, supplier } = all.at(-2) ?? {};
      expect(own.slice(0, -1)).toEqual(all.slice(0, -2));
      expect(own.at(-1)).toEqual({ vehicle: unit, fitted_km, source, supplier });
    }
  });
});

it('are as many as a small fleet has', () => {
  const jobs = choosePastJobs(simulateFleet(getScenario('platform-step', { end })));
  expect(jobs.filter(({ kind }) => kind === 'converter')).toEqual([]);
});
