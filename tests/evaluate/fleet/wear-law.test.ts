import { describe, expect, it } from 'vitest';
import { RandomSource } from './random-source.ts';
import { drawSpanKm, drawWearLaw } from './wear-law.ts';

const span = { healthyRpm: 12, limitRpm: 150, largestRpm: 300, onsetKm: 100_000, crossKm: 125_000 };
const names = ['linear', 'accelerating', 'power', 'stepwise'] as const;
const draw = (name: (typeof names)[number], i: number) =>
  drawWearLaw(name, span, new RandomSource(`${name}/${i}`));
const draws = Array.from({ length: 40 }, (_, i) => i);
const along = Array.from({ length: 251 }, (_, i) => 100_000 + 100 * i);

describe.each(names)('%s wear', (name) => {
  it('is healthy until the onset and crosses the limit where it should', () => {
    for (const i of draws) {
      const law = draw(name, i);
      expect(law.slipAt(50_000)).toBe(12);
      expect(law.slipAt(100_000)).toBe(12);
      expect(law.slipAt(100_300)).toBeGreaterThan(12);
      expect(law.slipAt(125_000)).toBeCloseTo(150, 6);
      expect(law.slipAt(124_990)).toBeLessThan(150);
      expect(law.slipAt(125_010)).toBeGreaterThan(150);
    }
  });

  it('never falls and ends at what the clutch can slip at most', () => {
    for (const i of draws) {
      const slips = [...along, 140_000, 200_000, 900_000].map(draw(name, i).slipAt);
      expect(slips.every((slip, at) => at === 0 || slip >= (slips[at - 1] ?? 0))).toBe(true);
      expect(Math.max(...slips)).toBeLessThanOrEqual(300);
    }
  });
});

/** Where half of the kilometres are driven. */
const halfway = (name: (typeof names)[number], i: number) =>
  (draw(name, i).slipAt(112_500) - 12) / (150 - 12);

it('is half way after half the kilometres where linear, and behind where it grows', () => {
  for (const i of draws) {
    expect(halfway('linear', i)).toBeCloseTo(0.5, 9);
    // exp: 1 / (1 + e^(g/2)) for g from 1.4 to 3.6; power: 2^-p for p from 1.3 to 3.
    expect(halfway('accelerating', i)).toBeGreaterThan(1 / (1 + Math.exp(1.8)) - 1e-9);
    expect(halfway('accelerating', i)).toBeLessThan(1 / (1 + Math.exp(0.7)) + 1e-9);
    expect(halfway('power', i)).toBeGreaterThanOrEqual(2 ** -3);
    expect(halfway('power', i)).toBeLessThanOrEqual(2 ** -1.3);
  }
});

it('goes in 3 to 8 jumps with plateaus between where stepwise', () => {
  const counts = draws.map((i) => {
    const slips = along.map(draw('stepwise', i).slipAt);
    const moves = slips.map((slip, at) => at > 0 && slip > (slips[at - 1] ?? 0) + 1e-9);
    return moves.filter((moving, at) => moving && !moves[at - 1]).length;
  });
  expect(Math.min(...counts)).toBeGreaterThanOrEqual(2);
  expect(Math.max(...counts)).toBeLessThanOrEqual(8);
  expect(new Set(counts).size).toBeGreaterThan(3);
});

it('takes 8,000 to 80,000 km, half of them more than about 25,000', () => {
  const random = new RandomSource('spans');
  const spans = Array.from({ length: 4000 }, () => drawSpanKm(random)).sort((a, b) => a - b);
  expect(spans[0]).toBeGreaterThanOrEqual(8000);
  expect(spans.at(-1)).toBeLessThanOrEqual(80_000);
  expect(spans[2000]).toBeGreaterThan(22_000);
  expect(spans[2000]).toBeLessThan(29_000);
});
