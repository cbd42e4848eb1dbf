import { expect, it } from 'vitest';
import { boundRise } from './bound-rise.ts';

it('runs as its note says', () => {
  expect(boundRise(3, 0, 20, 9, 'known')).toBeCloseTo(0.00135, 5);
});

it('is never surer than the scatter allows where the larger is asked for', () => {
  const [known, estimated, larger] = (['known', 'estimated', 'larger'] as const).map((scale) =>
    boundRise(4, 1, 60, 9, scale),
  );
  expect(estimated).toBeGreaterThan(known ?? 1);
  expect(larger).toBe(estimated);
});
