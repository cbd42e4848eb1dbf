import { expect, it } from 'vitest';
import { surviveNormal } from './survive-normal.ts';

// At 0: log(1 / 2), sqrt(2 / pi), 2 / pi.
it('runs as its note says', () => {
  expect(surviveNormal(0)).toEqual({
    logSurvival: expect.closeTo(-Math.LN2, 12),
    hazard: expect.closeTo(0.797885, 6),
    slope: expect.closeTo(0.63662, 6),
  });
});

it('joins the series without a step, and has slopes that are those of the hazard', () => {
  const [below, above] = [surviveNormal(30 - 1e-9), surviveNormal(30 + 1e-9)];
  expect(above.hazard / below.hazard).toBeCloseTo(1, 9);
  expect(above.slope / below.slope).toBeCloseTo(1, 6);
  for (const z of [-3, 1, 8, 40]) {
    const slope = (surviveNormal(z + 1e-4).hazard - surviveNormal(z - 1e-4).hazard) / 2e-4;
    expect(surviveNormal(z).slope).toBeCloseTo(slope, 5);
  }
  expect(surviveNormal(Number.NEGATIVE_INFINITY)).toEqual({ logSurvival: 0, hazard: 0, slope: 0 });
});
