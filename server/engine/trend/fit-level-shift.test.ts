import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { fitLevelShift, type LevelShiftQuestion } from './fit-level-shift.ts';

function shiftOf(question: LevelShiftQuestion) {
  const answer = fitLevelShift(question);
  if ('declined' in answer) throw new Error(answer.declined.reason);
  return answer;
}

it('runs as its note says', () => {
  const shift = shiftOf({ x: [1, 2, 3, 4, 5, 6], y: [1, 2, 1, 9, 8, 9] });
  expect(shift).toMatchObject({ pointsBefore: 3, lastBefore: 3, firstAfter: 4, low: 3, high: 4 });
  expect(shift.before).toBeCloseTo(4 / 3, 12);
  expect(shift.after).toBeCloseTo(26 / 3, 12);
  // By hand: rss 2/3 + 2/3, variance 4/3 / 4, difference of two means of three.
  expect(shift.seDifference).toBeCloseTo(Math.sqrt((1 / 3) * (2 / 3)), 12);
});

it('weighs points: three times the weight is three times the point', () => {
  const [x, y] = [
    [1, 2, 3, 4, 5, 6],
    [1, 2, 1, 5, 4, 6],
  ];
  const weighted = shiftOf({ x, y, weight: [1, 3, 1, 1, 1, 1] });
  const repeated = shiftOf({ x: [...x, 2, 2], y: [...y, 2, 2], weight: Array(8).fill(1) });
  expect(weighted.before).toBeCloseTo(repeated.before, 12);
  expect(weighted.rss).toBeCloseTo(repeated.rss, 12);
  expect(weighted.p).toBeCloseTo(repeated.p, 6);
});

it('never splits points of equal x', () => {
  expect(shiftOf({ x: [1, 1, 2, 2, 2, 3], y: [0, 0, 0, 9, 9, 9], leastPoints: 1 }).lastBefore).not.toBe(2.5);
  expect([2, 5]).toContain(
    shiftOf({ x: [1, 1, 2, 2, 2, 3], y: [0, 0, 0, 9, 9, 9], leastPoints: 1 }).pointsBefore,
  );
});

// 2000 level series: standard error 0.5 %. The bound is known to be high: 3 % with 100 points.
it.each([
  ['known', 12],
  ['estimated', 100],
] as const)(
  'raises false alarms at a nominal 5 %% in 1 to 7 %% of level series (scale %s, %i points)',
  (scale, n) => {
    const random = seededRandom(n);
    let alarms = 0;
    for (let run = 0; run < 2000; run++) {
      const x = Array.from({ length: n }, (_, i) => i);
      const sd = x.map(() => 1 + random.uniform());
      const y = sd.map((one) => one * random.normal());
      if (shiftOf({ x, y, weight: sd.map((one) => one ** -2), scale }).p < 0.05) alarms++;
    }
    expect(alarms / 2000).toBeGreaterThan(0.01);
    expect(alarms / 2000).toBeLessThan(0.07);
  },
);

it('sees no shift where all y are equal', () => {
  expect(shiftOf({ x: [1, 2, 3, 4], y: [7, 7, 7, 7] })).toMatchObject({ before: 7, after: 7, p: 1, f: null });
});

it('declines what cannot be had', () => {
  expect(fitLevelShift({ x: [1, 2, 3], y: [1, 2, 3] })).toMatchObject({
    declined: { reason: 'too few points' },
  });
  expect(fitLevelShift({ x: [1, 1, 1, 1], y: [1, 2, 3, 4] })).toMatchObject({
    declined: { reason: 'no place for a shift' },
  });
  expect(() => fitLevelShift({ x: [1], y: [1], confidence: 2 })).toThrow(
    'fitLevelShift requires a confidence',
  );
});
