import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { had } from '#tests/published/had.ts';
import { estimateIncidence } from './estimate-incidence.ts';
import { estimateKaplanMeier } from './estimate-kaplan-meier.ts';

const failed = (exit: number, mode?: string) => ({
  entry: 0,
  exit,
  event: true,
  count: 1,
  ...(mode === undefined ? {} : { mode }),
});
const ran = (exit: number) => ({ entry: 0, exit, event: false, count: 1 });

it('runs as its note says', () => {
  expect(estimateIncidence([failed(5, 'lining'), ran(6)])).toMatchObject([
    { mode: 'lining', events: 1, points: [{ x: 5, incidence: 0.5, se: expect.closeTo(0.3536, 4) }] },
  ]);
});

it('has the error of Greenwood where there is one mode', () => {
  const random = seededRandom(5);
  const lives = Array.from({ length: 40 }, () => {
    const entry = 50 * random.uniform();
    const event = random.uniform() < 0.6;
    return {
      entry,
      exit: entry + 1 + 100 * random.uniform(),
      event,
      count: 1,
      ...(event ? { mode: 'a' } : {}),
    };
  });
  const points = estimateKaplanMeier(lives, 0.95).filter(({ survival }) => survival > 0);
  const [only] = had(estimateIncidence(lives));
  for (const [i, { survival, se }] of points.entries()) {
    expect(only?.points[i]?.incidence).toBeCloseTo(1 - survival, 12);
    expect(only?.points[i]?.se).toBeCloseTo(se ?? Number.NaN, 10);
  }
});

it('adds up to all failures, those without a mode apart', () => {
  const modes = had(estimateIncidence([failed(1, 'b'), failed(2), failed(3, 'a'), ran(3), ran(9)]));
  expect(modes.map(({ mode, events }) => [mode, events])).toEqual([
    ['a', 1],
    ['b', 1],
    ['not recorded', 1],
  ]);
  expect(modes.reduce((sum, { points }) => sum + (points.at(-1)?.incidence ?? 0), 0)).toBeCloseTo(0.6, 12);
});

it('declines where no failure has a mode', () => {
  expect(estimateIncidence([failed(1), ran(2)])).toMatchObject({ declined: { reason: 'no modes are told' } });
  expect(estimateIncidence([ran(2)])).toMatchObject({ declined: { reason: 'no failures' } });
});
