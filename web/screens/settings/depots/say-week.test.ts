import { expect, it } from 'vitest';
import { usualWeek } from '#server/contract/calendar.ts';
import { sayBayHours, sayWeek } from './say-week.ts';

const never = {
  monday: null,
  tuesday: null,
  wednesday: null,
  thursday: null,
  friday: null,
  saturday: null,
  sunday: null,
};
const late = { from: '09:00', to: '17:30' };

it('joins days that follow each other with the same hours', () => {
  expect(sayWeek(usualWeek)).toBe('Mon to Fri 07:00–16:00');
  expect(sayWeek({ ...usualWeek, wednesday: null, saturday: late })).toBe(
    'Mon to Tue 07:00–16:00, Thu to Fri 07:00–16:00, Sat 09:00–17:30',
  );
  expect(sayWeek(never)).toBe('closed all week');
});

it('says how many bay hours a week has', () => {
  expect(sayBayHours({ bays: 2, week: usualWeek })).toBe('2 bays, open 45 h a week: 90 bay hours.');
  expect(sayBayHours({ bays: 1, week: { ...never, friday: late } })).toBe(
    'One bay, open 8.5 h a week: 8.5 bay hours.',
  );
  expect(sayBayHours({ bays: 0, week: usualWeek })).toBe('No bay: nothing can be booked here.');
  expect(sayBayHours({ bays: 1, week: never })).toBe('Closed all week; only special days have room.');
});
