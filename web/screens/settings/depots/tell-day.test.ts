import { expect, it } from 'vitest';
import { depotInput } from '#server/contract/fleet.ts';
import { tellDay } from './tell-day.ts';

const depot = depotInput.parse({
  id: 'n',
  name: 'N',
  bays: 2,
  special_days: [
    { day: '2026-12-25', bays: 0, note: 'Christmas' },
    { day: '2026-12-24', hours: { from: '07:00', to: '12:00' } },
    { day: '2026-12-28', bays: 1 },
    { day: '2026-12-29', bays: 3 },
    { day: '2026-12-19', hours: { from: '08:00', to: '14:00' } },
    { day: '2026-12-27', bays: 0, note: 'Sunday' },
    { day: '2026-12-30', note: 'stocktaking in the office' },
  ],
});

it.each([
  ['2026-12-23', 'open', 2],
  ['2026-12-26', 'closed', 0],
  ['2026-12-25', 'off', 0],
  ['2026-12-24', 'short', 2],
  ['2026-12-28', 'short', 1],
  ['2026-12-29', 'extra', 3],
  ['2026-12-19', 'extra', 2],
  ['2026-12-27', 'closed', 0],
  ['2026-12-30', 'open', 2],
] as const)('tells %s as %s', (day, kind, bays) => {
  expect(tellDay(depot, day)).toMatchObject({ kind, bays });
});

it('has hours and note with it', () => {
  expect(tellDay(depot, '2026-12-24').hours).toEqual({ from: '07:00', to: '12:00' });
  expect(tellDay(depot, '2026-12-25')).toEqual({ kind: 'off', bays: 0, hours: null, note: 'Christmas' });
});

it('is closed throughout where there is no bay', () => {
  expect(tellDay({ ...depot, bays: 0 }, '2026-12-23').kind).toBe('closed');
});
