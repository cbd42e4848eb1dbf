import { expect, it } from 'vitest';
import { estimateHuberLocation } from './estimate-huber-location.ts';

it('runs as its note says', () => {
  const answer = estimateHuberLocation({ values: [1, 2, 3, 100] });
  expect(answer).toMatchObject({ n: 4, scale: expect.closeTo(1.4826, 10) });
  // By hand: three values as they are and one drawn in to mu + 1.5 s: 4 mu = 6 + mu + 2.2239 with mu < 1 + 1.5 s.
  expect(answer).toMatchObject({ location: expect.closeTo((6 + 1.5 * 1.4826) / 3, 10) });
});

it('is the mean with its plain standard error where nothing stands out', () => {
  const values = [1, 2, 3, 4, 5];
  expect(estimateHuberLocation({ values, k: 50 })).toMatchObject({
    location: expect.closeTo(3, 12),
    se: expect.closeTo(Math.sqrt(10) / 5, 12),
  });
});

it('counts a weight as so many values', () => {
  const weighted = estimateHuberLocation({ values: [1, 2, 4, 30], weight: [2, 3, 2, 1] });
  const repeated = estimateHuberLocation({ values: [1, 1, 2, 2, 2, 4, 4, 30] });
  if ('declined' in weighted || 'declined' in repeated) throw new Error('declined');
  expect(weighted.location).toBeCloseTo(repeated.location, 10);
  expect(weighted.scale).toBeCloseTo(repeated.scale, 10);
});

it('gives the median where more than half are equal, and declines nothing', () => {
  expect(estimateHuberLocation({ values: [5, 5, 5, 80] })).toEqual({ n: 4, location: 5, scale: 0, se: 0 });
  expect(estimateHuberLocation({ values: [] })).toEqual({
    declined: { reason: 'no values', needed: 'at least 1', got: '0' },
  });
  expect(() => estimateHuberLocation({ values: [1], k: 0 })).toThrow('estimateHuberLocation requires k');
});
