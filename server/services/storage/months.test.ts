import { expect, it } from 'vitest';
import { dropDayOf, listCurrentMonths, startOfMonth, tellMonth } from './months.ts';
import { startOfKept } from './upkeep-limits.ts';

it('has this month and the next two, over the turn of a year too', () => {
  expect(listCurrentMonths(new Date('2026-11-30T23:59:59Z'))).toEqual(['2026-11', '2026-12', '2027-01']);
});

it('takes a month as over three days after its end', () => {
  const tell = (now: string) => tellMonth('2026-02', new Date(now));
  expect(tell('2026-01-31T23:59:59Z')).toBe('ahead');
  expect(tell('2026-02-01T00:00:00Z')).toBe('open');
  expect(tell('2026-03-03T23:59:59Z')).toBe('open');
  expect(tell('2026-03-04T00:00:00Z')).toBe('over');
});

it('names the day on which retention drops a month: the first on which it is older than what is kept', () => {
  const day = dropDayOf('2023-10', 36);
  expect(day).toBe('2026-11-01');
  const isKept = (now: Date) => startOfMonth('2023-10') >= startOfKept(now, 36);
  expect(isKept(new Date('2026-10-31T23:59:59Z'))).toBe(true);
  expect(isKept(new Date(`${day}T00:00:00Z`))).toBe(false);
  expect(dropDayOf('2023-10', 0)).toBeNull();
});
