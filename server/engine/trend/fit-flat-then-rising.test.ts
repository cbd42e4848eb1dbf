import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import {
  type FlatThenRising,
  type FlatThenRisingQuestion,
  fitFlatThenRising,
} from './fit-flat-then-rising.ts';

function fitted(question: FlatThenRisingQuestion): FlatThenRising {
  const answer = fitFlatThenRising(question);
  if ('declined' in answer) throw new Error(answer.declined.reason);
  return answer;
}

it('finds an exact hinge', () => {
  const answer = fitted({ x: [0, 1, 2, 3, 4, 5, 6], y: [1, 1, 1, 1, 2, 3, 4] });
  expect(answer.break).toBeCloseTo(3, 10);
  expect(answer.slopeAfter).toBeCloseTo(1, 10);
  expect(answer.before).toBeCloseTo(1, 10);
  expect(answer.rss).toBeCloseTo(0, 12);
  expect(answer.pAgainstFlat).toBeLessThan(1e-6);
});

it('finds a break between two points', () => {
  const x = Array.from({ length: 30 }, (_, i) => i * 1000);
  const y = x.map((km) => 6 + 0.004 * Math.max(km - 17_350, 0));
  expect(fitted({ x, y }).break).toBeCloseTo(17_350, 4);
});

it('weighs points: ten times the weight is ten times the point', () => {
  const x = [0, 1, 2, 3, 4, 5, 6, 7];
  const y = [2, 1, 2, 1, 2, 4, 5, 8];
  const weighted = fitted({ x, y, weight: [1, 1, 1, 1, 1, 1, 10, 1] });
  const repeated = fitted({
    x: [...x, ...Array(9).fill(6)],
    y: [...y, ...Array(9).fill(5)],
    weight: Array(17).fill(1),
  });
  expect(weighted.break).toBeCloseTo(repeated.break ?? Number.NaN, 9);
  expect(weighted.slopeAfter).toBeCloseTo(repeated.slopeAfter, 9);
  expect(weighted.rss).toBeCloseTo(repeated.rss, 9);
  expect(weighted.pAgainstFlat).toBeCloseTo(repeated.pAgainstFlat, 9);
});

it('does not depend on the order of the points, nor on the origin of x', () => {
  const x = [5, 1, 4, 2, 3, 8, 7, 6];
  const y = [3, 1, 2, 1, 0, 9, 7, 4];
  const sorted = fitted({ x: [1, 2, 3, 4, 5, 6, 7, 8], y: [1, 1, 0, 2, 3, 4, 7, 9] });
  expect(fitted({ x, y })).toEqual(sorted);
  const far = fitted({ x: x.map((one) => one + 1e6), y });
  expect(far.break).toBeCloseTo(1e6 + (sorted.break ?? Number.NaN), 5);
  expect(far.pAgainstFlat).toBeCloseTo(sorted.pAgainstFlat, 8);
});

it('says that nothing rises where the series falls or stays', () => {
  const x = [0, 1, 2, 3, 4, 5, 6];
  expect(fitted({ x, y: [6, 5, 4, 3, 2, 1, 0] })).toMatchObject({
    break: null,
    low: null,
    slopeAfter: 0,
    before: 3,
  });
  expect(fitted({ x, y: [6, 5, 4, 3, 2, 1, 0] }).pAgainstFlat).toBeGreaterThan(0.5);
  expect(fitted({ x, y: Array(7).fill(0.1) })).toMatchObject({ break: null, seSlope: null });
  expect(fitted({ x, y: Array(7).fill(0.1) }).pAgainstFlat).toBeGreaterThanOrEqual(0.5);
});

it('leaves the break open to both ends where next to nothing rises', () => {
  const answer = fitted({
    x: [0, 1, 2, 3, 4, 5, 6, 7],
    y: [1, -1, 1, -1, 1, -1, 1, 0.2],
    weight: Array(8).fill(1),
  });
  expect(answer.break).not.toBeNull();
  expect(answer).toMatchObject({ low: 0, high: 5 });
});

it('declines too few points, and is never called on broken ones', () => {
  expect(fitFlatThenRising({ x: [1, 2, 3], y: [1, 2, 3] })).toEqual({
    declined: { reason: 'too few points', needed: 'at least 5', got: '3' },
  });
  expect(fitFlatThenRising({ x: [1, 1, 1, 2, 2, 3], y: [1, 2, 3, 4, 5, 6] })).toMatchObject({
    declined: { reason: 'too few different x', got: '3' },
  });
  expect(() => fitFlatThenRising({ x: [1], y: [] })).toThrow('fitFlatThenRising requires');
  expect(() => fitFlatThenRising({ x: [], y: [], confidence: 1 })).toThrow('requires a confidence');
});

/** Share of flat and of straight series, seeded, that the test calls at 5 %. */
function falseAlarms(n: number, runs: number, scale: 'known' | 'estimated' | 'larger', slope: number) {
  const random = seededRandom(n * 7 + scale.length);
  let [rising, bent] = [0, 0];
  for (let run = 0; run < runs; run++) {
    const x = Array.from({ length: n }, () => random.uniform() * 50_000);
    const sd = x.map(() => 1 + 4 * random.uniform());
    const y = x.map((km, i) => 10 + slope * km + random.normal() * (sd[i] ?? 1));
    const answer = fitted({ x, y, weight: sd.map((one) => 1 / one ** 2), scale });
    if (answer.pAgainstFlat < 0.05) rising++;
    if (answer.pAgainstStraight < 0.05) bent++;
  }
  return { rising: rising / runs, bent: bent / runs };
}

// Level of the bound of Davies (1987). 3000 runs: standard error 0.4 % at 5 %.
it.each([
  ['known', 12],
  ['known', 80],
  ['estimated', 12],
  ['estimated', 80],
] as const)(
  'raises false alarms at a nominal 5 %% in 1 to 7 %% of flat series (scale %s, %i points)',
  (scale, n) => {
    const { rising, bent } = falseAlarms(n, 3000, scale, 0);
    expect(rising).toBeGreaterThan(0.01);
    expect(rising).toBeLessThan(0.07);
    expect(bent).toBeGreaterThan(0.01);
    expect(bent).toBeLessThan(0.07);
  },
);

it('does not take a straight rise for one that turns up', () => {
  expect(falseAlarms(40, 2000, 'known', 0.001).bent).toBeLessThan(0.07);
});

it('is never surer with "larger" than with either of both', () => {
  const random = seededRandom(5);
  const x = Array.from({ length: 40 }, (_, i) => i);
  for (const sd of [0.5, 1, 3]) {
    const y = x.map((one) => 0.1 * Math.max(one - 20, 0) + sd * random.normal());
    const weight = x.map(() => 1);
    const [known, estimated, larger] = (['known', 'estimated', 'larger'] as const).map(
      (scale) => fitted({ x, y, weight, scale }).pAgainstFlat,
    );
    expect(larger).toBe(Math.max(known ?? 1, estimated ?? 1));
  }
});

// 600 series: standard errors 0.9 % and 1.1 %. The set is by likelihood ratio with a kinked likelihood: near 95 %.
it('covers the true break and slope about as often as it says', () => {
  const random = seededRandom(11);
  let [breaks, slopes] = [0, 0];
  for (let run = 0; run < 600; run++) {
    const x = Array.from({ length: 80 }, (_, i) => i);
    const y = x.map((one) => 5 + 0.3 * Math.max(one - 43.7, 0) + random.normal());
    const answer = fitted({ x, y });
    if ((answer.low ?? 99) <= 43.7 && (answer.high ?? 0) >= 43.7) breaks++;
    if (Math.abs(answer.slopeAfter - 0.3) <= 1.96 * (answer.seSlope ?? 0)) slopes++;
  }
  expect(breaks / 600).toBeGreaterThan(0.91);
  expect(breaks / 600).toBeLessThan(0.985);
  expect(slopes / 600).toBeGreaterThan(0.91);
});

it('takes a few thousand points in a moment', () => {
  const random = seededRandom(3);
  const x = Array.from({ length: 5000 }, () => random.uniform());
  const y = x.map((one) => Math.max(one - 0.6, 0) + 0.1 * random.normal());
  const start = performance.now();
  expect(fitted({ x, y }).break).toBeCloseTo(0.6, 1);
  expect(performance.now() - start).toBeLessThan(500);
});
