import { describe, expect, it } from 'vitest';
import { roundTicks } from './ticks.ts';

describe('roundTicks', () => {
  it('gives multiples of 1, 2 or 5 within the ends', () => {
    expect(roundTicks(281_400, 376_800, 10)).toEqual(
      [290, 300, 310, 320, 330, 340, 350, 360, 370].map((k) => k * 1000),
    );
    expect(roundTicks(0, 177, 5)).toEqual([0, 50, 100, 150]);
    expect(roundTicks(24_050, 25_560, 8)).toEqual([24_200, 24_400, 24_600, 24_800, 25_000, 25_200, 25_400]);
  });

  it('keeps ends that are round themselves', () => {
    expect(roundTicks(0, 100, 5)).toEqual([0, 20, 40, 60, 80, 100]);
  });

  it('gives none for an empty or reversed span', () => {
    expect(roundTicks(5, 5, 4)).toEqual([]);
    expect(roundTicks(9, 5, 4)).toEqual([]);
  });
});
