import { expect, it } from 'vitest';
import { makeOutlook } from '#tests/helpers/make-wear-case.ts';
import { drawFan } from './draw-fan.ts';

const ends = (horizonKm: number, farKm: number) =>
  (drawFan([makeOutlook()], 105_000, 150, horizonKm, farKm).at(-1)?.km ?? 0) - 105_000;

it('runs as its note says', () => {
  expect(drawFan([makeOutlook()], 105_000, 150, 5_000, 9_000)[24]?.km).toBeCloseTo(114_900, 6);
});

it('reaches the horizon at least, and 40,000 km at the most', () => {
  expect(ends(5_000, 1_000)).toBe(5_000);
  expect(ends(5_000, 90_000)).toBe(40_000);
});

it('begins at the level now, and opens', () => {
  const fan = drawFan([makeOutlook()], 105_000, 150, 5_000, 9_000);
  expect(fan[0]?.km).toBe(105_000);
  expect(fan[0]?.slipRpm[3]).toBeCloseTo(85, 6);
  const widths = fan.map(({ slipRpm }) => (slipRpm[6] ?? 0) - (slipRpm[0] ?? 0));
  expect(widths.at(-1)).toBeGreaterThan(4 * (widths[0] ?? 0));
});
