import { expect, it } from 'vitest';
import type { AnalysedLife } from '#server/contract/lives.ts';
import { analyseExposures } from './analyse-exposures.ts';

const life = (i: number): AnalysedLife => ({
  entry: 0,
  exit: 100 + 7 * ((i * 5) % 12),
  event: i % 2 === 0,
  count: 1,
  mode: undefined,
  group: undefined,
  covariates: i === 3 ? {} : { load_pct: (i * 7) % 10 },
});
const lives = Array.from({ length: 12 }, (_, i) => life(i));

it('names what lives lack as it was called, or in the words that were given', () => {
  const start = '1 of the lives lacks an exposure and is left out of the Cox regression:';
  expect(analyseExposures(lives, 0.95).notes).toEqual([`${start} "load_pct" is missing in 1.`]);
  expect(analyseExposures(lives, 0.95, { load_pct: 'load' }).notes).toEqual([
    `${start} load is missing in 1.`,
  ]);
});
