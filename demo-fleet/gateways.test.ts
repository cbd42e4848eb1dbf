import { expect, it } from 'vitest';
import type { Line } from './arrivals.ts';
import { gatewayNames, planGateways } from './gateways.ts';
import { getScenario } from './scenarios.ts';
import { simulateFleet } from './simulate.ts';

const end = new Date('2026-03-04T12:00:00Z');
const { truth } = simulateFleet(getScenario('operator', { end }));
const plan = planGateways(truth);
const carriedBy = (name: string) => truth.vehicles.filter(({ unit }) => plan.nameOf(unit) === name);

it('gives every vehicle a gateway, most that of their depot', () => {
  const counts = gatewayNames.map((name) => carriedBy(name).length);
  expect(counts.reduce((sum, n) => sum + n, 0)).toBe(truth.vehicles.length);
  expect(Math.min(...counts.slice(0, 4))).toBeGreaterThan(20);
});

it('lets the spare unit fall silent with the one vehicle that it carries', () => {
  const spare = carriedBy('Spare unit');
  expect(spare).toHaveLength(1);
  expect(spare[0]?.notes.join()).toContain(`to ${end.toISOString().slice(0, 10)}`);
});

it('lets a signal stick only at vehicles without a fault, late, and in a copy as in its line', () => {
  const loaned = carriedBy('Loaned unit');
  expect(loaned).toHaveLength(6);
  expect(loaned.every(({ faultKind }) => faultKind === 'none')).toBe(true);
  const line = (vehicle: string, day: string, minute: number): Line => ({
    arrivesMs: 0,
    form: 'ndjson',
    fate: 'new',
    reading: {
      vehicle,
      at: `${day}T10:${String(minute).padStart(2, '0')}:00Z`,
      odometer_km: 1,
      slip_rpm: 1,
      duty_pct: 85,
    },
  });
  const stuck = (vehicle: string, day: string) =>
    Array.from({ length: 60 }, (_, i) => plan.pass(line(vehicle, day, i)).reading.shifting === true);
  const unit = loaned[0]?.unit ?? '';
  const late = stuck(unit, '2026-02-20');
  expect(late.filter(Boolean).length).toBeGreaterThan(10);
  expect(late.filter(Boolean).length).toBeLessThan(40);
  expect(stuck(unit, '2026-02-20')).toEqual(late);
  expect(stuck(unit, '2025-10-20')).not.toContain(true);
  const other = truth.vehicles.find(({ unit: one }) => plan.nameOf(one) !== 'Loaned unit')?.unit ?? '';
  expect(stuck(other, '2026-02-20')).not.toContain(true);
});
