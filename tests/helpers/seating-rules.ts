import { expect } from 'vitest';
import type { DepotQuestion, Seating } from '#server/engine/planning/planning-model.ts';

/** Nobody twice, nobody on a day when they cannot be taken, no gap with more than fits into it. */
export function expectToFit({ days, candidates }: DepotQuestion, seatings: readonly Seating[]): void {
  const seated = seatings.flatMap((one) => one.candidates);
  expect(new Set(seated).size).toBe(seated.length);
  expect(new Set(seatings.map(({ day, gap }) => `${day} ${gap}`)).size).toBe(seatings.length);
  for (const { day, gap, candidates: inside } of seatings) {
    const room = days[day]?.gaps[gap];
    const taken = inside.reduce((sum, i) => sum + (candidates[i]?.quarters ?? 0), 0);
    expect(taken).toBeLessThanOrEqual((room?.toQuarter ?? 0) - (room?.fromQuarter ?? 0));
    for (const i of inside) expect(candidates[i]?.values[day]).toEqual(expect.any(Number));
  }
}

export const countHolds = ({ candidates }: DepotQuestion, seatings: readonly Seating[]): number =>
  seatings.flatMap((one) => one.candidates).filter((i) => candidates[i]?.hold).length;

export const sumValue = ({ candidates }: DepotQuestion, seatings: readonly Seating[]): number =>
  seatings
    .flatMap(({ day, candidates: inside }) => inside.map((i) => candidates[i]?.values[day] ?? Number.NaN))
    .reduce((sum, value) => sum + value, 0);
