import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { compareDriftWithShift, tellShiftFromDrift } from './tell-shift-from-drift.ts';

it('runs as its note says', () => {
  const answer = tellShiftFromDrift({ x: [1, 2, 3, 4, 5, 6], y: [1, 2, 1, 9, 8, 9] });
  expect('declined' in answer ? 0 : answer.logLikelihoodRatio).toBeLessThan(-2);
  const compared = { n: 20, rssDrift: 10, rssShift: 20 };
  expect(compareDriftWithShift({ ...compared, scale: 'known' })).toEqual({ logLikelihoodRatio: 5 });
  expect(compareDriftWithShift({ ...compared, scale: 'estimated' })).toEqual({
    logLikelihoodRatio: 10 * Math.log(2),
  });
});

it.each(['shift', 'drift'] as const)('tells a %s from the other in nine of ten clear series', (kind) => {
  const random = seededRandom(kind.length);
  let right = 0;
  for (let run = 0; run < 200; run++) {
    const x = Array.from({ length: 60 }, (_, i) => i);
    const truth = (one: number) => (kind === 'shift' ? (one >= 30 ? 4 : 0) : 0.2 * Math.max(one - 25, 0));
    const answer = tellShiftFromDrift({
      x,
      y: x.map((one) => truth(one) + random.normal()),
      weight: x.map(() => 1),
    });
    if ('declined' in answer) continue;
    if (kind === 'drift' ? answer.logLikelihoodRatio > 0 : answer.logLikelihoodRatio < 0) right++;
  }
  expect(right).toBeGreaterThanOrEqual(180);
});

it('declines where there is nothing to compare', () => {
  expect(tellShiftFromDrift({ x: [1, 2], y: [1, 2] })).toMatchObject({
    declined: { reason: 'too few points' },
  });
  expect(tellShiftFromDrift({ x: [1, 2, 3, 4, 5], y: [7, 7, 7, 7, 7] })).toMatchObject({
    declined: { reason: 'both fit without rest' },
  });
});
