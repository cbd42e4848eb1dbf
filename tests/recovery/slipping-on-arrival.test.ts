import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isFlagged, isHealthy } from './compare-with-truth.ts';
import { daysBetween } from './read-answer.ts';
import { end, type Recovered, recoverFleet } from './recover-fleet.ts';

let fleet: Recovered;
beforeAll(async () => {
  fleet = await recoverFleet('slipping-on-arrival', { quietGateways: 6 });
});
afterAll(() => fleet?.app.stop());

const arrived = () => fleet.truth.vehicles.filter((one) => /slipping already/.test(one.notes.join()));

describe('vehicles that slip when they are first seen', () => {
  it('come out on top by their level, though no drift was ever seen', () => {
    const units = arrived().map((one) => one.unit);
    expect(units.length).toBe(2);
    expect(
      fleet.rows
        .slice(0, 2)
        .map((row) => row.vehicle)
        .sort(),
    ).toEqual(units.sort());
    for (const unit of units)
      expect(fleet.rowOf(unit)).toMatchObject({ grade: 'hold', km_to_limit: { p50: 0 } });
  });

  it('are said to have slipped from the first readings', () => {
    for (const { unit } of arrived()) {
      const row = fleet.rowOf(unit);
      expect(row.pattern).toMatch(/^(slipping_on_arrival|full_slip)$/);
      expect(row.reasons.join('\n')).toMatch(/Slip was high from the first readings/);
    }
  });

  it('take no healthy vehicle with them', () => {
    const healthy = fleet.truth.vehicles.filter(isHealthy);
    expect(healthy.length).toBe(14);
    expect(healthy.filter((one) => isFlagged(fleet.rowOf(one.unit))).map((one) => one.unit)).toEqual([]);
  });
});

describe('gateways that are quiet at the end', () => {
  it('are said to be, with the days', () => {
    const today = end.toISOString();
    const quiet = fleet.truth.vehicles.flatMap((one) => {
      const [from, to] = /gateway quiet/.test(one.notes.join())
        ? (one.notes.join().match(/\d{4}-\d\d-\d\d/g) ?? [])
        : [];
      if (from === undefined || to !== today.slice(0, 10) || daysBetween(from, today) < 20) return [];
      return [{ unit: one.unit, days: daysBetween(from, today) }];
    });
    expect(quiet.length).toBeGreaterThan(0);
    for (const { unit, days } of quiet) {
      const said = Number(/No readings for (\d+) days/.exec(fleet.rowOf(unit).missing.join())?.[1]);
      // From the last reading of the day before, or of the Friday before.
      expect(said).toBeGreaterThanOrEqual(Math.floor(days));
      expect(said).toBeLessThanOrEqual(days + 4);
    }
  });

  it('are said of nobody who reports', () => {
    const said = fleet.rows.filter((row) => row.missing.some((one) => one.startsWith('No readings for')));
    const known = fleet.truth.vehicles.filter((one) => /gateway quiet/.test(one.notes.join()));
    expect(known.map((one) => one.unit)).toEqual(expect.arrayContaining(said.map((row) => row.vehicle)));
  });
});
