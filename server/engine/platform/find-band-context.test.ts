import { expect, it } from 'vitest';
import { findBandContext } from './find-band-context.ts';
import { unknownPlatform } from './platform-context.ts';
import { unknownBand } from './unknown-band.ts';

it('runs as its note says', () => {
  expect(findBandContext(unknownPlatform, 2).movement).toEqual([]);
});

it('finds what was learned of the band, and assumes the rest', () => {
  const learned = { ...unknownBand(1), usualRpm: 31 };
  expect(findBandContext({ bands: [unknownBand(0), learned] }, 1)).toBe(learned);
  expect(findBandContext({ bands: [learned] }, 0)).toEqual(unknownBand(0));
});
