import { expect, it } from 'vitest';
import { sayWeeks, weeksWithin } from './weeks-within.ts';

const WEEK_MS = 604_800_000;
const ms = (day: string) => Date.parse(`${day}T00:00:00Z`);

// Weeks of seven days since 1970 begin on Thursdays: 1 Jan 2026 is one.
it('takes whole weeks alone, on either side', () => {
  const first = ms('2026-01-01') / WEEK_MS;
  expect(Number.isInteger(first)).toBe(true);
  expect(weeksWithin({ fromMs: ms('2026-01-01'), toMs: ms('2026-01-15') })).toEqual({
    first,
    last: first + 1,
  });
  expect(weeksWithin({ fromMs: ms('2026-01-02'), toMs: ms('2026-01-21') })).toEqual({
    first: first + 1,
    last: first + 1,
  });
});

it('says which they are', () => {
  expect(sayWeeks({ fromMs: null, toMs: null })).toBeNull();
  expect(sayWeeks({ fromMs: ms('2026-01-02'), toMs: null })).toMatch(/period, from 8 Jan 2026: nothing/);
  expect(sayWeeks({ fromMs: null, toMs: ms('2026-01-21') })).toMatch(/period, up to 14 Jan 2026: nothing/);
  expect(sayWeeks({ fromMs: ms('2026-01-02'), toMs: ms('2026-01-13') })).toMatch(/holds no whole week/);
});
