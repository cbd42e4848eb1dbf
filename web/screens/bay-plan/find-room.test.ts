import { expect, it } from 'vitest';
import { findFirstRoom, findRoom, findRoomOnDay, type PlanDepot, type Taken } from './find-room.ts';

const open = { bays: 2, hours: { from: '07:00', to: '16:00' }, note: '', bay_hours: 18, booked_hours: 0 };
const depot: PlanDepot = {
  id: 'mossgate',
  name: 'Mossgate',
  time_zone: 'Europe/Vienna',
  today: '2026-03-04',
  bays: 2,
  days: [
    { ...open, day: '2026-03-03' },
    { ...open, day: '2026-03-04' },
    { ...open, day: '2026-03-05' },
    { day: '2026-03-06', bays: 0, hours: null, note: 'stocktaking', bay_hours: 0, booked_hours: 0 },
    { ...open, day: '2026-03-07', bays: 1, hours: { from: '07:00', to: '09:00' } },
  ],
};
/** 10:20 in Vienna */
const now = '2026-03-04T09:20:00Z';
const have = (day: string, bay: number, from: string, to: string): Taken => ({
  key: `${day} ${bay} ${from}`,
  depot: 'mossgate',
  day,
  bay,
  from,
  to,
});
const look = (day: string, bay: number, wish: Parameters<typeof findRoom>[2], taken: Taken[] = []) =>
  findRoom(depot, { day, bay }, wish, taken, now);

it('begins when the depot opens, today at the next quarter of an hour', () => {
  expect(look('2026-03-05', 1, { hours: 3 })).toEqual({ fits: true, from: '07:00', to: '10:00' });
  expect(look('2026-03-04', 1, { hours: 3 })).toEqual({ fits: true, from: '10:30', to: '13:30' });
});

it('takes the first gap that is long enough, and keeps the time it had where that is free', () => {
  const taken = [have('2026-03-05', 1, '10:00', '12:00'), have('2026-03-05', 1, '07:00', '09:00')];
  expect(look('2026-03-05', 1, { hours: 1 }, taken)).toMatchObject({ from: '09:00' });
  expect(look('2026-03-05', 1, { hours: 3 }, taken)).toMatchObject({ from: '12:00' });
  expect(look('2026-03-05', 1, { hours: 3, from: '13:00' }, taken)).toMatchObject({ from: '13:00' });
  expect(look('2026-03-05', 1, { hours: 3, from: '11:00' }, taken)).toMatchObject({ from: '12:00' });
  expect(look('2026-03-05', 2, { hours: 3 }, taken)).toMatchObject({ from: '07:00' });
});

it('is not in its own way', () => {
  const own = have('2026-03-05', 1, '07:00', '16:00');
  expect(look('2026-03-05', 1, { hours: 9, key: own.key }, [own])).toMatchObject({ from: '07:00' });
});

it('says why there is no room', () => {
  const full = [have('2026-03-05', 1, '08:00', '15:00')];
  expect(look('2026-03-03', 1, { hours: 3 })).toEqual({ fits: false, why: 'this day is over' });
  expect(look('2026-03-05', 1, { hours: 3 }, full)).toEqual({ fits: false, why: 'no 3\u00a0h free' });
  expect(look('2026-03-06', 1, { hours: 3 })).toEqual({ fits: false, why: 'closed: stocktaking' });
  expect(look('2026-03-07', 1, { hours: 3 })).toEqual({ fits: false, why: 'open for 2\u00a0h only' });
  expect(look('2026-03-07', 2, { hours: 1 })).toEqual({ fits: false, why: 'only bay 1 on this day' });
  expect(look('2026-04-01', 1, { hours: 3 })).toEqual({ fits: false, why: 'outside the days shown' });
});

it('finds the first place of all', () => {
  const taken = [have('2026-03-04', 1, '08:00', '15:00'), have('2026-03-04', 2, '14:00', '16:00')];
  expect(findFirstRoom(depot, { hours: 3 }, taken, now)).toEqual({
    depot: 'mossgate',
    day: '2026-03-04',
    bay: 2,
    from: '10:30',
  });
  expect(findFirstRoom(depot, { hours: 12 }, [], now)).toBeNull();
});

it('takes the first bay with room where none is asked for, and says why where there is none', () => {
  const taken = [have('2026-03-05', 1, '07:00', '16:00')];
  const onDay = (bay: number | null, hours: number) =>
    findRoomOnDay(depot, { day: '2026-03-05', bay }, { hours }, taken, now);
  expect(onDay(null, 3)).toMatchObject({ fits: true, bay: 2, from: '07:00' });
  expect(onDay(1, 3)).toEqual({ fits: false, why: 'no 3\u00a0h free' });
  expect(findRoomOnDay(depot, { day: '2026-03-06', bay: null }, { hours: 3 }, [], now)).toEqual({
    fits: false,
    why: 'closed: stocktaking',
  });
});
