import { describe, expect, it } from 'vitest';
import { depotInput, vehicleInput } from '#server/contract/fleet.ts';
import { dayOf } from './calendar.ts';
import { depots } from './depots.ts';
import { dayText, describeAbsence, describeWorkdays } from './work-calendar.ts';

const endDay = dayOf(Date.UTC(2026, 10, 26));

describe('the calendar of a depot', () => {
  it('is one that the set-up takes, with its special days in the two weeks ahead', () => {
    for (const depot of depots) {
      const { id, name, bays } = depot;
      const { special_days } = depotInput.parse({ id, name, bays, ...describeWorkdays(depot, endDay) });
      expect(special_days).toHaveLength(1);
      for (const { day } of special_days) {
        expect(day >= '2026-11-30').toBe(true);
        expect(day <= '2026-12-13').toBe(true);
      }
    }
  });

  it('looks ahead from a Sunday to the next day, and from a Monday to the next week', () => {
    const fair = (day: string) =>
      describeWorkdays(depots[0] ?? expect.fail(), dayOf(Date.parse(day))).special_days?.[0]?.day;
    expect(fair('2026-11-29')).toBe('2026-12-02');
    expect(fair('2026-11-30')).toBe('2026-12-09');
  });
});

it('takes some vehicles away for some days, the same ones each time', () => {
  const units = Array.from({ length: 400 }, (_, i) => `B-${i}`);
  const away = units.filter(
    (id) => vehicleInput.parse({ id, ...describeAbsence(id, 'seed', endDay) }).unavailable,
  );
  // 12 % of 400 are 48, standard deviation 6.5.
  expect(away.length).toBeGreaterThan(25);
  expect(away.length).toBeLessThan(75);
  expect(describeAbsence(away[0] ?? '', 'seed', endDay)).toEqual(
    describeAbsence(away[0] ?? '', 'seed', endDay),
  );
  expect(dayText(endDay)).toBe('2026-11-26');
});
