import { expect, it } from 'vitest';
import { currentLife } from './current-life.ts';

const now = Date.parse('2026-03-04T00:00:00Z');
const fitted = (fittedKm: number, fittedAt: string | null = null, removedKm: number | null = null) => ({
  fittedKm,
  removedKm,
  fittedAt,
});
const numberOf = (life: number | null, lives: ReturnType<typeof fitted>[], nowKm: number | null) =>
  currentLife({ life, lives }, nowKm, now).number;

it('is that of the newest stretch', () => {
  expect(currentLife({ life: 2, lives: [fitted(0), fitted(100_000)] }, 150_000, now)).toEqual({
    number: 2,
    fittedKm: 100_000,
    fittedAtMs: null,
  });
  expect(currentLife({ life: 1, lives: [] }, 150_000, now).fittedKm).toBe(null);
});

it('knows what a used converter had run before, where that is on record', () => {
  const lives = [fitted(0), { ...fitted(100_000), runKm: 60_000 }];
  expect(currentLife({ life: 2, lives }, 150_000, now).runKm).toBe(60_000);
});

it('is the one fitted since the last reading', () => {
  expect(numberOf(1, [fitted(0), fitted(150_020)], 150_000)).toBe(2);
  expect(numberOf(1, [fitted(0), fitted(150_020, '2026-03-03T10:00:00Z')], 150_000)).toBe(2);
});

it('is not one that lies far ahead or at a date to come', () => {
  expect(numberOf(1, [fitted(0), fitted(1_500_000)], 150_000)).toBe(1);
  expect(numberOf(1, [fitted(0), fitted(150_020, '2026-03-05T10:00:00Z')], 150_000)).toBe(1);
});

it('goes on after a removal that no fitting followed', () => {
  expect(numberOf(3, [fitted(0), fitted(100_000, null, 120_000)], 150_000)).toBe(3);
});

it('is found by mileage without a stretch, and is 1 where nothing is known', () => {
  expect(numberOf(null, [fitted(0), fitted(100_000)], 90_000)).toBe(1);
  expect(numberOf(null, [fitted(0), fitted(100_000)], 130_000)).toBe(2);
  expect(numberOf(null, [], null)).toBe(1);
});
