import { describe, expect, it } from 'vitest';
import { isDeclined } from '#server/engine/declined.ts';
import { fitTheilSen } from '#server/engine/trend/fit-theil-sen.ts';
import { measureKendall } from '#server/engine/trend/measure-kendall.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { plainKendallS, plainTheilSenSlope } from './plain-loops.ts';

describe('plain loops over all pairs', () => {
  it('count and choose by hand', () => {
    // Slopes of (1,1) (2,3) (3,2) (5,9): 2, 0.5, 2, -1, 2, 3.5; five rise, one falls.
    expect(plainKendallS([1, 2, 3, 5], [1, 3, 2, 9])).toBe(4);
    expect(plainTheilSenSlope([1, 2, 3, 5], [1, 3, 2, 9])).toBe(2);
    // Without the second: 0.5, 2, 3.5. With a pair of equal x: 1 and 3 alone.
    expect(plainTheilSenSlope([1, 3, 5], [1, 2, 9])).toBe(2);
    expect(plainTheilSenSlope([1, 2, 2], [0, 1, 3])).toBe(2);
  });
  it('agree with the engine, ties and odd and even numbers of pairs among them', () => {
    for (let n = 4; n < 40; n++) {
      const { uniform, normal } = seededRandom(n);
      const x = Array.from({ length: n }, () => Math.floor(uniform() * n));
      const y = x.map((one) => Math.round(10 * (0.2 * one + normal())) / 10);
      const [line, kendall] = [fitTheilSen({ x, y }), measureKendall(x, y)];
      if (isDeclined(line) || isDeclined(kendall)) throw new Error('declined');
      expect(plainTheilSenSlope(x, y)).toBe(line.slope);
      expect(plainKendallS(x, y)).toBe(kendall.s);
    }
  });
});
