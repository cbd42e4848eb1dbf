import { expect, it } from 'vitest';
import { defaultWearPrior } from '#server/engine/wear/wear-model.ts';
import { unknownBand } from './unknown-band.ts';

it('runs as its note says', () => {
  expect(unknownBand(2).movement).toEqual([]);
});

it('assumes the usual slip and no effects', () => {
  expect(unknownBand(2)).toMatchObject({
    band: 2,
    usualRpm: defaultWearPrior.baselineRpm,
    effects: { healthy: [0, 0, 0], worn: [0, 0, 0] },
  });
});

it('gives each its own, so that none can change another', () => {
  expect(unknownBand(1).effects.healthy).not.toBe(unknownBand(1).effects.healthy);
});
