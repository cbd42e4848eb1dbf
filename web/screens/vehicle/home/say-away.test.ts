import { expect, it } from 'vitest';
import { findAway, sayAway } from './say-away.ts';

const one = (from: string, to: string, note = '') => ({ from, to, note });

it('says on which days it cannot be taken, those that are over left out', () => {
  const today = '2026-11-26';
  expect(sayAway([], today)).toBe('It can be taken on any day.');
  expect(sayAway([one('2026-11-01', '2026-11-25')], today)).toBe('It can be taken on any day.');
  expect(sayAway([one('2026-11-20', '2026-11-26', 'lent out')], today)).toBe(
    'It cannot be taken on 20 to 26 Nov 2026 (lent out).',
  );
  const days = ['2026-12-01', '2026-12-05', '2026-12-09', '2026-12-13', '2026-12-17'].map((day) =>
    one(day, day),
  );
  expect(sayAway(days.slice(0, 2), today)).toBe('It cannot be taken on Tue 1 Dec 2026 and Sat 5 Dec 2026.');
  expect(sayAway(days, today)).toBe(
    'It cannot be taken on Tue 1 Dec 2026, Sat 5 Dec 2026, Wed 9 Dec 2026 and 2 more.',
  );
});

it('finds the days that a booking falls into', () => {
  const away = [one('2026-12-01', '2026-12-05')];
  expect(findAway(away, '2026-12-05')).toEqual(away[0]);
  expect(findAway(away, '2026-12-06')).toBe(undefined);
  expect(findAway(away, null)).toBe(undefined);
  expect(findAway([one('2026-12-01', '')], '2026-12-01')).toBeDefined();
});
