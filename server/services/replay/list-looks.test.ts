import { expect, it } from 'vitest';
import type { LifeEvent } from '#server/engine/replay/replay-model.ts';
import { newDayTable } from './day-columns.ts';
import { listLooks } from './list-looks.ts';

const DAY_MS = 86_400_000;
const dayEndMs = Array.from({ length: 28 }, (_, i) => (i + 1) * DAY_MS);

/** 100 km a day, a chance of 30 % stated on each, followed to 4,000 km. Looks are on days 0, 7, 14, 21. */
function look(event: LifeEvent | null) {
  const days = newDayTable(28);
  days.km = days.km.map((_, day) => 100 * (day + 1));
  days.life.fill(1);
  days.statedChance.fill(0.3);
  const course = { life: 1, event, lastKm: event?.km ?? 4_000, risenShare: 0, clearedMs: [] };
  const courses = [{ ...course, firstKm: 0, isCutShort: false }];
  return listLooks({ dayEndMs }, [{ days, courses }]).map(({ drivenKm, failed }) => [drivenKm, failed]);
}

it('follows what never came as far as it was driven', () => {
  expect(look(null)).toEqual([3_900, 3_200, 2_500, 1_800].map((km) => [km, false]));
});

it('takes slip at the limit as come at once until its third stretch tells it', () => {
  const event = { what: 'reached_limit' as const, mode: null, km: 1_250, atMs: 12.5 * DAY_MS };
  expect(look({ ...event, knownMs: 16 * DAY_MS })).toEqual([
    [1_150, true],
    [450, true],
    [1, true],
  ]);
  expect(look({ ...event, knownMs: 14 * DAY_MS })).toHaveLength(2);
});

it('ends the following with a fault that a shop found before, and counts it as nothing that came', () => {
  const event = { what: 'confirmed' as const, mode: null, km: 1_250, atMs: 12.5 * DAY_MS };
  expect(look({ ...event, knownMs: event.atMs })).toEqual([
    [1_150, false],
    [450, false],
  ]);
});
