import { expect, it } from 'vitest';
import { expectLife } from './expect-life.ts';

// Gamma(1 + 1/2.2) = 0.88562 (Abramowitz and Stegun, table 6.1, between 1.45 and 1.46: 0.88566, 0.88560).
it('runs as its note says', () => {
  expect(expectLife(300_000).scaleKm).toBeCloseTo(338_753, 0);
  expect(300_000 / expectLife(300_000).scaleKm).toBeCloseTo(0.88562, 4);
  expect(expectLife(300_000).shape).toBe(2.2);
});
